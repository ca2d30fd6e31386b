// What goes on paper: head, every section with its prints and steps, and the cautions that stand on the page.
import { make } from "./dom.js";
import { on, state } from "./state.js";
import { panel } from "./panel.js";
import { capital, tidyName } from "./board.js";
import { sectionName } from "./play-bar.js";
import { figureWords, many, stepWords, weightWords } from "./wording.js";

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
    const head = make("div", { class: "printed-head" }, make("h1", {}, d.title || "A dance without a title"),
      make("p", {}, [many(d.counts, "count"), many(d.walls, "wall"), d.level, d.tempo && `${d.tempo} beats a minute`, d.intro && `${d.intro} counts in`].filter(Boolean).join(" · ")),
      d.author ? make("p", {}, d.author) : "", d.music ? make("p", {}, `Music: ${d.music}`) : "");
    const key = make("p", { class: "printed-key" }, `Left foot hatched, right foot filled; filled or hatched prints carry weight, empty ones do not; broken lines are off the floor. Pale needle: facing at the beginning; dark needle: at the end. Seen ${{ behind: "from behind", facing: "facing the dancer", mirrored: "as in a mirror" }[state.view.side]}.`);
    const shown = d.stretches.map((s, index) => make("section", { class: "printed-section" },
      make("h2", {}, `${sectionName(s)}${s.name ? `: ${tidyName(s.name)}` : ""}`),
      make("div", {}, panel(d, state.track, index, state.view.side), make("p", { class: "printed-calls" }, s.figures.map(figureWords).join(" · "))),
      make("div", {}, make("ol", {}, ...d.steps.filter((step) => step.stretch === index).map((step) =>
        make("li", {}, make("span", { class: "n" }, step.count), make("span", {}, `${capital(stepWords(step))}; ${weightWords(step)}`)))),
      make("p", {}, `Ends facing ${s.facing_end}`))));
    const changes = d.runs.filter((r) => r.restart || r.kind === "tag").map((r) =>
      make("li", {}, r.kind === "tag" ? `After wall ${r.wall}: ${r.part}, ${many(r.counts, "count")}, facing ${r.facing}.` : `Wall ${r.wall}: dance ${many(r.counts, "count")}, then start again facing ${r.facing_end}.`));
    const song = changes.length ? [make("div", { class: "printed-song" }, make("h2", {}, "In the song"), make("ul", {}, ...changes))] : [];
    this.replaceChildren(head, key, ...shown, ...song);
  }
}
customElements.define("print-sheet", PrintSheet);
