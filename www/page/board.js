// The title and the board above the floor: the count, large, the words of the step and what comes next.
import { make } from "./dom.js";
import { countAt, on, state, stepAt, stretchAt } from "./state.js";
import { sectionName } from "./play-bar.js";
import { capital, many, tidyName, titleWords } from "./wording.js";

class DanceTitle extends HTMLElement {
  connectedCallback() {
    on("dance", () => this.#show());
  }

  #show() {
    const title = titleWords(state.dance?.title ?? "") || (state.text.trim() ? "A dance without a title" : "No dance yet");
    if (title !== this.textContent) this.textContent = title;
    document.title = `${title} · halfcount`;
  }
}
customElements.define("dance-title", DanceTitle);

/** What the head of the sheet says. */
class DanceFacts extends HTMLElement {
  connectedCallback() {
    on("dance", () => this.#show());
    on("findings", () => this.#show());
  }

  #show() {
    const d = state.dance;
    const serious = state.findings.filter((f) => f.severity !== "note").length;
    const facts = d?.total ? [many(d.counts, "count"), many(d.walls, "wall"), d.level?.toLowerCase()].filter(Boolean) : [];
    this.replaceChildren(
      serious ? make("a", { class: "mend", href: "#found-title" }, many(serious, "thing to mend", "things to mend")) : "",
      facts.join(" · "), d?.total && d.tempo ? make("span", { class: "roomy" }, ` · ${d.tempo} beats a minute`) : "");
  }
}
customElements.define("dance-facts", DanceFacts);

class CountBoard extends HTMLElement {
  connectedCallback() {
    this.number = make("span", { class: "number" });
    this.and = make("span", { class: "and" });
    this.section = make("p", { class: "where" });
    this.words = make("p", { class: "words" });
    this.weight = make("p", { class: "weight" });
    this.next = make("p", { class: "next" });
    this.acts = make("p", { class: "acts", hidden: true },
      make("button", { type: "button", class: "strong", onclick: () => document.querySelector("step-sheet").focus() }, "Go to the sheet"),
      make("button", { type: "button", onclick: () => document.querySelector("dance-shelf").first() }, "Show me one"));
    this.voice = make("p", { class: "quiet", role: "status" });
    this.replaceChildren(make("div", { class: "board" },
      make("p", { class: "count", "aria-hidden": "true" }, this.number, this.and),
      make("div", { class: "now" }, this.section, this.words, this.weight, this.acts), this.next), this.voice);
    on("dance", () => { this.key = ""; this.#show(); });
    on("tick", () => this.#show());
    on("place", () => this.#tell());
  }

  #show() {
    const index = stepAt();
    const [count, half] = countAt();
    const key = `${index} ${count} ${half} ${state.counting} ${state.wall}`;
    if (key === this.key) return;
    this.key = key;
    const list = state.playlist;
    this.acts.hidden = Boolean(list?.total);
    this.classList.toggle("ready", !count && !state.counting);
    if (!list?.total) {
      this.number.textContent = "–";
      this.and.textContent = "";
      this.section.textContent = "Put a step sheet in";
      this.words.textContent = state.text.trim() ? "No steps could be read in this text yet." : "Paste, type or open one, or take a dance of the hall.";
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
    this.words.textContent = step && !state.counting ? capital(step.words) : "Ready: feet together";
    this.weight.textContent = step && !state.counting ? capital(step.weight) : state.dance.start_foot === "L" ? "The left foot goes first" : "The right foot goes first";
    this.#next();
  }

  /** The call that comes next, and what it is for. */
  #next() {
    const { calls = [] } = state.playlist;
    const next = calls.find((call) => call.lands > state.tick + 1 && (call.kind === "figure" || call.kind === "warning"));
    const words = next && next.lands <= state.to + 24 ? next.words : state.wall === 0 ? "the end" : "from the top";
    this.next.replaceChildren(make("span", { class: "label" }, "Next"), ` ${words}`);
  }

  #tell() {
    const step = state.playlist?.steps[stepAt()];
    if (step && !state.playing) this.voice.textContent = step.sentence;
  }
}
customElements.define("count-board", CountBoard);

