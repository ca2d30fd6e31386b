// The dance as a list of sentences that follows the count: the same that the floor shows.
import { make } from "./dom.js";
import { on, pause, setTick, state, stepAt, tell } from "./state.js";
import { sectionName } from "./play-bar.js";
import { capital, countWords, tidyName } from "./wording.js";

class StepList extends HTMLElement {
  connectedCallback() {
    on("dance", () => this.#renew());
    on("tick", () => this.#follow());
    this.#renew();
  }

  #renew() {
    const list = state.playlist;
    if (list === this.list && this.wall === state.wall) return;
    Object.assign(this, { list, wall: state.wall, now: -1 });
    if (!list?.total) return this.replaceChildren(make("p", {}, "The steps appear here once there is a dance."));
    this.rows = new Map();
    const sections = list.stretches.flatMap((s, index) => {
      if (state.wall !== 0 && s.wall !== state.wall) return [];
      const rows = list.steps.flatMap((step, i) => {
        if (step.stretch !== index) return [];
        const item = make("li", { class: step.who || "body" },
          make("button", { type: "button", onclick: () => { pause(); setTick(step.tick); tell("place"); } },
            make("span", { class: "n" }, make("span", { "aria-hidden": "true" }, step.count), make("span", { class: "quiet" }, `Count ${countWords(step.count)}: `)),
            make("span", { class: "what" }, capital(step.said)),
            step.weight ? make("span", { class: "then" }, step.weight) : ""));
        this.rows.set(i, item);
        return [item];
      });
      return [make("section", {},
        make("h3", {}, `${state.wall === 0 ? `Wall ${s.wall}: ` : ""}${sectionName(s)}`, s.name ? make("span", {}, ` ${tidyName(s.name)}`) : ""),
        make("ol", {}, ...rows), make("p", { class: "end" }, `Ends facing ${s.facing_end}`))];
    });
    this.replaceChildren(...sections);
    this.#follow();
  }

  #follow() {
    const index = stepAt();
    if (index === this.now || !this.rows) return;
    const mark = (i, here) => {
      const row = this.rows.get(i);
      if (!row) return;
      row.classList.toggle("here", here);
      if (here) row.firstChild.setAttribute("aria-current", "step");
      else row.firstChild.removeAttribute("aria-current");
    };
    mark(this.now, false);
    mark(index, true);
    this.now = index;
  }
}
customElements.define("step-list", StepList);
