// The song wall by wall: when each begins, which way it faces, where it breaks off, where something is added and
// where the music ends.
import { blocks } from "./blocks.js";
import { freshId, idly, make, toFloor } from "./dom.js";
import { ask, has } from "./harbour.js";
import { on, setWall, state, tell } from "./state.js";
import { capital, many } from "./wording.js";

const ROW = /^([\d:.]+)\s+(wall \d+|.+?)\s+faces (\S+)\s+(\d+ counts?)\s*(.*)$/;

class SongPlan extends HTMLElement {
  connectedCallback() {
    const id = freshId("length");
    this.length = make("input", { id, type: "text", inputmode: "numeric", autocomplete: "off", placeholder: "3:30", size: 6, "aria-describedby": `${id}-how`, onchange: () => this.#show() });
    this.told = make("div", {});
    this.ask = has("call") ? make("div", { class: "field short" }, make("label", { for: id }, "How long is the music?"), this.length,
      make("span", { class: "label", id: `${id}-how` }, "minutes and seconds, as 3:30")) : make("div", {});
    this.append(this.told, this.ask);
    const show = idly(() => this.#show());
    on("text", show);
    on("tempo", show);
    this.#show();
  }

  #show() {
    if (!state.dance?.runs.length) {
      this.ask.hidden = true;
      return this.told.replaceChildren(make("p", {}, "There is no song to plan yet."));
    }
    this.ask.hidden = false;
    const { intro } = state.dance;
    const lead = `${intro ? `${many(intro, "count")} of music come first. ` : ""}Times are reckoned at ${state.tempo} beats a minute.`;
    this.told.replaceChildren(make("p", {}, lead), ...(this.#planned() ?? [this.#table(this.#reckoned())]));
  }

  /** The plan of the package. */
  #planned() {
    if (!has("call")) return null;
    const length = this.length.value.trim();
    const options = { bpm: Math.max(20, state.tempo) };
    const plan = (length && ask("call", state.text, { ...options, length })) || ask("call", state.text, options);
    this.length.setAttribute("aria-invalid", String(Boolean(length) && !ask("call", state.text, { ...options, length })));
    const song = plan && blocks(plan).find((block) => block.heading === "The song");
    if (!song) return null;
    const [rows, rest] = [[], []];
    for (const { words } of song.points) {
      const row = words.match(ROW);
      if (row) rows.push({ at: row[1].replace(/\.\d$/, ""), what: row[2], facing: row[3], danced: row[4], then: row[5] });
      else if (!words.includes("--length")) rest.push(make("p", {}, capital(words.replace(/^([\d:]+)\.\d /, "$1: "))));
    }
    return [this.#table(rows), ...rest];
  }

  /** Without one: what is danced, and when at the tempo that is set. */
  #reckoned() {
    let counts = state.dance.intro ?? 0;
    return state.dance.runs.map((run) => {
      const seconds = Math.round((counts * 60) / state.tempo);
      counts += run.counts;
      return {
        at: `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`,
        what: run.kind === "main" ? `wall ${run.wall}` : run.part, facing: run.facing,
        danced: many(run.counts, "count"), then: run.restart ? "then RESTART" : "",
      };
    });
  }

  #table(rows) {
    const known = Math.max(...state.dance.runs.map((run) => run.wall));
    const act = (wall) => { setWall(wall); tell("place"); toFloor(); };
    return make("table", { class: "song" }, make("caption", { class: "quiet" }, "The walls of the song"),
      make("thead", {}, make("tr", {}, ...["begins", "danced", "facing", ""].map((w) => make(w ? "th" : "td", { scope: w ? "col" : null }, w)))),
      make("tbody", {}, ...rows.map((row) => {
        const wall = Number(row.what.match(/^wall (\d+)/)?.[1] ?? 0);
        const special = row.then || !wall;
        const then = row.then.replace("RESTART", "restart");
        return make("tr", { class: special ? "special" : false },
          make("td", {}, row.at),
          make("th", { scope: "row" }, capital(row.what), make("span", { class: "under" }, [row.danced, then].filter(Boolean).join(", "))),
          make("td", {}, row.facing),
          make("td", {}, wall && wall <= known ? make("button", { type: "button", "aria-label": `Show wall ${wall} on the floor`, onclick: () => act(wall) }, "Show") : ""));
      })));
  }
}
customElements.define("song-plan", SongPlan);
