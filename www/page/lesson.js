// What a class must know first, in which order the dance may be taught, and where people go wrong.
import { blocks } from "./blocks.js";
import { idly, make, toFloor } from "./dom.js";
import { ask, has } from "./harbour.js";
import { on, pause, setLoop, setTick, setWall, state, tell } from "./state.js";
import { capital, figureWords } from "./wording.js";

class LessonPlan extends HTMLElement {
  connectedCallback() {
    on("text", idly(() => this.#show()));
    this.#show();
  }

  #show() {
    if (!state.dance?.total) return this.replaceChildren(make("p", {}, "There is nothing to teach yet."));
    const plan = has("call") ? ask("call", state.text, { plan: true }) : null;
    if (!plan) return this.replaceChildren(make("ul", {}, ...this.#known()));
    // The title leads the text, and the words before the class close it: the page has both in other places.
    const shown = blocks(plan).filter((block) => block.heading && !block.heading.endsWith("lesson plan") && block.points.length);
    this.replaceChildren(...shown.flatMap((block) => [make("h3", {}, block.heading), this.#points(block)]));
  }

  #points({ heading, points }) {
    const order = heading.startsWith("Teach");
    return make(order ? "ol" : "ul", { class: order ? "order" : "points" }, ...points.map(({ words, under }) => {
      const [, name, rest] = words.match(/^([^(:]+)(.*)$/) ?? [null, words, ""];
      const section = order && Number(words.match(/^section (\d+)/)?.[1]);
      return make("li", {},
        make("div", {}, make("span", {}, rest ? make("strong", {}, capital(name.trim())) : capital(words), rest.startsWith(":") ? rest : ` ${rest}`.trimEnd()),
          ...under.map((line) => make("span", { class: "under" }, line))),
        section ? make("button", { type: "button", "aria-label": `Practise section ${section}`, onclick: () => this.#practise(section) }, "Practise") : "");
    }));
  }

  /** Without a plan at least the figures. */
  #known() {
    const names = new Set(state.dance.stretches.flatMap((s) => s.figures.map(figureWords)));
    return [...names].map((name) => make("li", {}, capital(name)));
  }

  #practise(section) {
    pause();
    if (state.wall !== 1) setWall(1);
    const stretch = state.playlist.stretches.findIndex((s) => s.kind === "main" && s.section === section);
    if (stretch < 0) return;
    setLoop(stretch);
    setTick(state.playlist.stretches[stretch].before * 24 + 12);
    tell("place");
    toFloor();
    document.querySelector(".play").focus({ preventScroll: true });
  }
}
customElements.define("lesson-plan", LessonPlan);
