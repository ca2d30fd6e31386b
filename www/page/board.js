// The title and the board above the floor: the count, large, the words of the step and what comes next.
import { make } from "./dom.js";
import { countAt, on, state, stepAt, stretchAt } from "./state.js";
import { figureAt } from "./sound.js";
import { sectionName } from "./play-bar.js";
import { figureWords, many, stepSentence, stepWords, weightWords } from "./wording.js";

class DanceTitle extends HTMLElement {
  connectedCallback() {
    on("dance", () => this.#show());
    this.#show();
  }

  #show() {
    const title = state.dance?.title || (state.text.trim() ? "A dance without a title" : "No dance yet");
    if (title === this.textContent) return;
    this.textContent = title;
    document.title = `${title} · halfcount`;
  }
}
customElements.define("dance-title", DanceTitle);

class CountBoard extends HTMLElement {
  connectedCallback() {
    this.facts = make("p", { class: "facts" });
    this.number = make("span", { class: "number" });
    this.and = make("span", { class: "and" });
    this.section = make("p", { class: "where" });
    this.words = make("p", { class: "words" });
    this.weight = make("p", { class: "weight" });
    this.next = make("p", { class: "next" });
    this.voice = make("p", { class: "quiet", role: "status" });
    this.append(this.facts, make("div", { class: "board" },
      make("p", { class: "count", "aria-hidden": "true" }, this.number, this.and),
      make("div", { class: "now" }, this.section, this.words, this.weight), this.next), this.voice);
    on("dance", () => this.#facts());
    on("tick", () => this.#show());
    on("place", () => this.#tell());
    this.#facts();
    this.#show();
  }

  #facts() {
    const d = state.dance;
    this.facts.textContent = d?.total
      ? [many(d.counts, "count"), many(d.walls, "wall"), d.level, d.tempo && `${d.tempo} beats a minute`].filter(Boolean).join(" · ")
      : "";
    this.key = "";
    this.#show();
  }

  #show() {
    const index = stepAt();
    const [count, half] = countAt();
    const key = `${index} ${count} ${half} ${state.counting} ${state.wall}`;
    if (key === this.key) return;
    this.key = key;
    const list = state.playlist;
    if (!list?.total) {
      this.number.textContent = "–";
      this.and.textContent = "";
      this.section.textContent = "Put a step sheet in";
      this.words.textContent = state.text.trim() ? "No steps could be read in this text yet." : "Paste one, drop a file, or take a dance off the shelf.";
      this.weight.textContent = this.next.textContent = "";
      return;
    }
    this.classList.toggle("counting-in", Boolean(state.counting));
    const s = list.stretches[stretchAt()];
    const step = list.steps[index];
    this.number.textContent = state.counting || count || "0";
    this.and.textContent = state.counting ? "" : half ? "&" : "";
    const wall = state.wall === 1 ? "" : `Wall ${s.wall} · `;
    this.section.textContent = state.counting ? "Counting in" : `${wall}${sectionName(s)}${s.name ? ` · ${tidyName(s.name)}` : ""}`;
    this.words.textContent = step && !state.counting ? capital(stepWords(step)) : "Ready: feet together";
    this.weight.textContent = step && !state.counting ? capital(weightWords(step)) : state.dance.start_foot === "L" ? "The left foot goes first" : "The right foot goes first";
    this.#next(index);
  }

  #next(index) {
    const steps = state.playlist.steps;
    let next = "";
    for (let i = index + 1; i < steps.length && !next; i += 1) {
      const figure = figureAt(i);
      if (figure) next = figureWords(figure);
    }
    this.next.replaceChildren(...(next ? [make("span", { class: "label" }, "Next"), ` ${next}`] : [make("span", { class: "label" }, "Next"), " the end"]));
  }

  #tell() {
    const step = state.playlist?.steps[stepAt()];
    if (step && !state.playing) this.voice.textContent = stepSentence(step);
  }
}
customElements.define("count-board", CountBoard);

export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);
/** Headings come in capitals; on a board they read better without. */
export const tidyName = (name) => (name === name.toUpperCase() ? capital(name.toLowerCase().replace(/\b([lr])\b/g, (m) => m.toUpperCase())) : name);
