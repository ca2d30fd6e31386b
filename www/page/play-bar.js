// Play, pause, half a count forward and back, the place in the dance with its sections.
import { make } from "./dom.js";
import { countAt, nudge, on, pause, play, setLoop, setTick, state, stretchAt, tell } from "./state.js";
import { capital, countWords } from "./wording.js";

const icon = (path) => {
  const span = make("span", { class: "icon", "aria-hidden": "true" });
  span.innerHTML = `<svg viewBox="0 0 24 24"><path d="${path}"/></svg>`;
  return span;
};
const PLAY = "M7 4v16l13-8Z";
const PAUSE = "M6 4h4.500v16H6ZM13.500 4H18v16h-4.500Z";

/** The section's heading in few words: `Section 3`, `Part B, section 1`, `Tag`. */
export function sectionName(s) {
  if (s.kind !== "main") return capital(s.part);
  return s.part === "main" ? `Section ${s.section}` : `${/^part/i.test(s.part) ? s.part : `Part ${s.part}`}, section ${s.section}`;
}

/** The same within a sentence. */
export const sectionWords = (s) => sectionName(s).replace(/^[A-Z]/, (letter) => letter.toLowerCase());

/** The same on a button: `3`, `B1`, `T`. */
const sectionMark = (s) => (s.kind !== "main" ? capital(s.part)[0] : `${s.part === "main" || s.part.length > 2 ? "" : s.part}${s.section}`);

class PlayBar extends HTMLElement {
  connectedCallback() {
    this.toggle = make("button", { class: "play", type: "button", onclick: () => (state.playing ? pause() : play()) });
    this.back = make("button", { type: "button", class: "half", onclick: () => nudge(-1) }, icon("M15 5l-8 7 8 7ZM17 5h2v14h-2Z"), make("span", {}, "½ ", make("span", { class: "roomy" }, "count "), "back"));
    this.on = make("button", { type: "button", class: "half", onclick: () => nudge(1) }, make("span", {}, "½ ", make("span", { class: "roomy" }, "count "), "on"), icon("M9 5l8 7-8 7ZM5 5h2v14H5Z"));
    this.start = make("button", { type: "button", class: "half start", onclick: () => { pause(); setTick(state.from); tell("place"); } }, icon("M6 5h2v14H6ZM19 5v14l-9-7Z"), make("span", {}, "To the start"));
    this.loop = make("button", { type: "button", class: "half loop", "aria-pressed": "false", onclick: () => setLoop(state.loop >= 0 ? -1 : stretchAt()) }, icon("M7 6h9a4 4 0 0 1 0 12H8v3l-5-4.500L8 12v3h8a1.500 1.500 0 0 0 0-6H7Z"), make("span", {}, "Repeat section"));
    this.slider = make("input", { type: "range", id: "place", step: "12", oninput: () => { pause(); setTick(Number(this.slider.value)); tell("place"); } });
    this.sections = make("div", { class: "sections", role: "group", "aria-label": "Sections" });
    this.replaceChildren(
      make("div", { class: "buttons" }, this.back, this.toggle, this.on),
      make("div", { class: "place" }, make("label", { for: "place", class: "quiet" }, "Place in the dance"), this.sections, this.slider),
      make("div", { class: "buttons lesser" }, this.start, this.loop));
    on("dance", () => this.#renew());
    on("play", () => this.#state());
    on("tick", () => this.#place());
    this.#renew();
    this.#state();
  }

  #state() {
    this.toggle.replaceChildren(icon(state.playing ? PAUSE : PLAY), make("span", {}, state.playing ? "Pause" : "Play"));
  }

  #renew() {
    const none = !state.dance?.total;
    for (const b of [this.toggle, this.back, this.on, this.start, this.loop, this.slider]) b.disabled = none;
    this.slider.min = state.from;
    this.slider.max = state.to;
    const all = (state.playlist?.stretches ?? []).map((s, index) => ({ s, index }));
    const shown = all.filter(({ s }) => state.wall === 0 || s.wall === state.wall);
    const many = shown.length > 12;
    this.sections.classList.toggle("many", many);
    this.sections.replaceChildren(...shown.map(({ s, index }) => {
      const b = make("button", {
        type: "button",
        "aria-label": `${state.wall === 0 ? `Wall ${s.wall}, ` : ""}${sectionName(s)}${s.name ? `, ${s.name}` : ""}`,
        title: s.name || sectionName(s),
        onclick: () => { setTick((s.before + 1) * 24); if (state.loop >= 0) setLoop(index); tell("place"); },
      }, sectionMark(s));
      b.style.flexGrow = s.counts;
      b.dataset.index = index;
      return b;
    }));
    const looped = state.playlist?.stretches[state.loop];
    this.loop.setAttribute("aria-pressed", String(Boolean(looped)));
    this.loop.lastChild.textContent = looped ? `Repeating ${sectionWords(looped)}` : "Repeat section";
    this.#place();
  }

  #place() {
    this.slider.value = state.tick;
    const index = stretchAt();
    const s = state.playlist?.stretches[index];
    const [count, half] = countAt();
    this.slider.setAttribute("aria-valuetext", s ? `${sectionName(s)}, ${count ? `count ${countWords(count + (half ? "&" : ""))}` : "ready"}` : "no dance");
    if (index !== this.index) {
      this.index = index;
      for (const b of this.sections.children) {
        if (Number(b.dataset.index) === index) b.setAttribute("aria-current", "true");
        else b.removeAttribute("aria-current");
      }
    } else if (!this.sections.querySelector("[aria-current]")) {
      this.sections.querySelector(`[data-index="${index}"]`)?.setAttribute("aria-current", "true");
    }
  }
}
customElements.define("play-bar", PlayBar);
