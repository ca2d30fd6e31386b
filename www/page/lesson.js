// What a class must know first, and in which order the dance may be taught.
import { make } from "./dom.js";
import { on, pause, setLoop, setTick, setWall, state, tell } from "./state.js";
import { capital, tidyName } from "./board.js";
import { sectionName } from "./play-bar.js";
import { figureWords, many } from "./wording.js";

class LessonPlan extends HTMLElement {
  connectedCallback() {
    on("text", () => this.#show());
    this.#show();
  }

  #show() {
    const all = (state.dance?.stretches ?? []).filter((s) => s.kind !== "ending");
    if (!all.length) return this.replaceChildren(make("p", {}, "There is nothing to teach yet."));
    const known = new Map();
    for (const s of all) for (const f of s.figures) {
      const seen = known.get(f.name) ?? { ...f, times: 0, in: new Set() };
      seen.times += 1;
      seen.in.add(s.section);
      known.set(f.name, seen);
    }
    const figures = [...known.values()];
    const where = (f) => [...f.in].map(String).join(", ");
    const table = figures.length ? make("table", {}, make("caption", { class: "quiet" }, "Figures to know first"),
      make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Figures to know first"), make("th", { scope: "col" }, "say it as"), make("th", { scope: "col" }, "sections"))),
      make("tbody", {}, ...figures.map((f) => make("tr", {}, make("th", { scope: "row" }, capital(f.name)), make("td", {}, f.calls || "–"), make("td", {}, where(f))))))
      : make("p", {}, "No figure with a name: teach the steps as they are written.");
    // Sections that share most of their figures with one before are quick to add.
    const met = new Set();
    const order = all.map((s, index) => {
      const fresh = s.figures.map((f) => f.name).filter((name) => !met.has(name));
      s.figures.forEach((f) => met.add(f.name));
      const news = fresh.length ? `new: ${[...new Set(fresh)].join(", ")}` : "nothing new";
      const turn = s.facing !== s.facing_end ? `; begins facing ${s.facing}, ends facing ${s.facing_end}` : "";
      return make("li", {}, make("strong", {}, `${sectionName(s)}${s.name ? `: ${tidyName(s.name)}` : ""}`), make("br"), `${many(s.counts, "count")}, ${news}${turn}. `,
        make("button", { type: "button", onclick: () => this.#practise(index) }, "Practise it"),
        index ? make("span", {}, ` Then join it to ${index === 1 ? "section 1" : `sections 1 to ${index}`}.`) : "");
    });
    this.replaceChildren(table, make("h3", {}, "In this order"), make("ol", {}, ...order),
      make("p", {}, `Walk each section without music, then to slow counts, then at ${state.dance.tempo || 100} beats a minute.${state.dance.walls > 1 ? " Face the second wall before the music starts, so that the room looks new only once." : ""}`));
  }

  #practise(index) {
    pause();
    if (state.wall !== 1) setWall(1);
    const stretch = state.playlist.stretches.indexOf(state.dance.stretches.filter((s) => s.kind !== "ending")[index]);
    setLoop(stretch);
    setTick(state.playlist.stretches[stretch].before * 24 + 12);
    tell("place");
    document.querySelector("#floor").scrollIntoView();
    document.querySelector(".play").focus({ preventScroll: true });
  }
}
customElements.define("lesson-plan", LessonPlan);
