// What goes on paper: head, every section with its prints and steps, and the cautions that stand on the page.
import { make } from "./dom.js";
import { drawings } from "./drawing.js";
import { on, state } from "./state.js";
import { capital, many, titleWords } from "./wording.js";

class PrintSheet extends HTMLElement {
  connectedCallback() {
    on("text", () => { this.stale = true; });
    on("view", () => { this.stale = true; });
    this.stale = true;
    addEventListener("beforeprint", () => this.renew());
    // Some browsers lay the paper out before they tell of it.
    matchMedia("print").addEventListener("change", (event) => { if (event.matches) this.renew(); });
  }

  renew() {
    if (!this.stale) return;
    this.stale = false;
    const d = state.dance;
    if (!d?.total) return this.replaceChildren();
    const head = make("div", { class: "printed-head" }, make("h1", {}, titleWords(d.title) || "A dance without a title"),
      make("p", {}, [many(d.counts, "count"), many(d.walls, "wall"), d.level, d.tempo && `${d.tempo} beats a minute`, d.intro && `${d.intro} counts in`].filter(Boolean).join(" · ")),
      d.author ? make("p", {}, d.author) : "", d.music ? make("p", {}, `Music: ${d.music}`) : "");
    const seen = state.view.side === "behind" ? "" : " Drawn for a teacher in front of the class who looks at it.";
    const key = make("p", { class: "printed-key" }, `Right foot dark, left foot hatched; a broken outline carries no weight. The open triangle is the wall faced at the beginning, the filled one the wall at the end. The strip shows the rhythm.${seen}`);
    const shown = drawings().map(({ svg, sentences }, index) => make("section", { class: "printed-section" },
      make("div", {}, svg),
      make("div", {}, make("ol", {}, ...sentences.map((step) =>
        make("li", {}, make("span", { class: "n" }, step.count), make("span", {}, capital(step.words))))),
      this.#calls(d.stretches[index]))));
    const changes = d.runs.filter((r) => r.restart || r.kind === "tag").map((r) =>
      make("li", {}, r.kind === "tag" ? `After wall ${r.wall}: ${r.part}, ${many(r.counts, "count")}, facing ${r.facing}.` : `Wall ${r.wall}: dance ${many(r.counts, "count")}, then start again facing ${r.facing_end}.`));
    const song = changes.length ? [make("div", { class: "printed-song" }, make("h2", {}, "In the song"), make("ul", {}, ...changes))] : [];
    this.replaceChildren(head, key, ...shown, ...song);
  }

  /** What is called over a section, on the count before which it is said. */
  #calls(stretch) {
    if (!stretch) return "";
    const [from, to] = [stretch.before * 24 + 24, (stretch.before + stretch.counts) * 24 + 24];
    const said = (state.dance.calls ?? []).filter((call) => call.kind === "figure" && call.lands >= from && call.lands < to);
    return said.length ? make("p", { class: "printed-calls" }, "Call: ", said.map((call) => call.words).join(" · ")) : "";
  }
}
customElements.define("print-sheet", PrintSheet);
