// The song wall by wall: which way the dance faces, where it breaks off and where something is added.
import { make } from "./dom.js";
import { on, setWall, state, tell } from "./state.js";
import { many } from "./wording.js";

class SongPlan extends HTMLElement {
  connectedCallback() {
    on("text", () => this.#show());
    on("tempo", () => this.#show());
    this.#show();
  }

  #show() {
    const runs = state.dance?.runs ?? [];
    if (!runs.length) return this.replaceChildren(make("p", {}, "There is no song to plan yet."));
    let counts = state.dance.intro ?? 0;
    const clock = (n) => {
      const seconds = Math.round((n * 60) / state.tempo);
      return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
    };
    const rows = runs.map((run) => {
      const at = clock(counts);
      counts += run.counts;
      const what = run.kind === "tag" ? `${run.part}, ${many(run.counts, "count")}` : run.restart ? `${many(run.counts, "count")}, then restart` : many(run.counts, "count");
      return make("tr", { class: run.kind === "tag" || run.restart ? "special" : false },
        make("th", { scope: "row" }, run.kind === "tag" ? "added" : make("button", { type: "button", "aria-label": `Show wall ${run.wall} on the floor`, onclick: () => { setWall(run.wall); tell("place"); document.querySelector("#floor").scrollIntoView(); } }, String(run.wall))),
        make("td", {}, run.facing), make("td", {}, run.kind === "tag" || run.restart ? make("strong", {}, what) : what), make("td", {}, at));
    });
    const intro = state.dance.intro ? `${many(state.dance.intro, "count")} of music come first. ` : "";
    this.replaceChildren(
      make("p", {}, `${intro}Times are reckoned at ${state.tempo} beats a minute.`),
      make("table", {}, make("caption", { class: "quiet" }, "The walls of the song"),
        make("thead", {}, make("tr", {}, ...["Wall", "facing", "danced", "begins"].map((w) => make("th", { scope: "col" }, w)))), make("tbody", {}, ...rows)));
  }
}
customElements.define("song-plan", SongPlan);
