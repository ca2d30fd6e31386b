// What can be taken away: paper, drawing, captions, clicks, a clean sheet, a link.
import { fileName, hand, make, say } from "./dom.js";
import { ask, has } from "./harbour.js";
import { toLink } from "./link.js";
import { on, state } from "./state.js";
import { calls, captions, clicks, midi } from "./tracks.js";
import { drawing } from "./drawing.js";

class TakeAway extends HTMLElement {
  connectedCallback() {
    const act = (words, does) => make("button", { type: "button", onclick: does }, words);
    this.out = make("div", { class: "made" });
    const group = (words, ...buttons) => make("div", { role: "group", "aria-label": words }, make("p", { class: "label" }, words), make("div", { class: "acts" }, ...buttons));
    const paper = act("Print", () => print());
    paper.classList.add("strong");
    this.append(
      make("p", {}, "Paper comes out on A4 or Letter, whichever your printer holds. The link carries the whole sheet in itself; no server keeps it."),
      group("On paper", paper, act("Drawing (SVG)", () => this.#give("svg", "image/svg+xml", drawing()))),
      group("With the music",
        calls() ? act("Captions (VTT)", () => this.#give("vtt", "text/vtt", captions())) : "",
        act("Click track (WAV)", () => hand(fileName(`${state.dance.title}-${state.tempo}`, "wav"), "audio/wav", clicks())),
        calls() ? act("Click track (MIDI)", () => this.#give("mid", "audio/midi", midi())) : ""),
      group("The sheet itself",
        act("Save the sheet", () => hand(fileName(state.dance.title, "txt"), "text/plain", state.text)),
        act("Copy a link", () => this.#link()),
        has("tidy") ? act("Clean sheet", () => this.#tidy(false)) : "",
        has("tidy") ? act("Clean sheet, other foot first", () => this.#tidy(true)) : ""),
      this.out);
    on("text", () => this.#able());
    this.#able();
  }

  #able() {
    this.out.replaceChildren();
    for (const b of this.querySelectorAll("button")) b.disabled = !state.dance?.total;
  }

  #give(ending, type, content) {
    if (content === undefined) return say("That could not be made from this sheet.");
    hand(fileName(state.dance.title, ending), type, content);
  }

  #tidy(mirror) {
    const words = ask("tidy", state.text, { mirror });
    if (!words) return say("This sheet could not be put into one clean manner.");
    hand(fileName(state.dance.title, mirror ? "mirrored.txt" : "clean.txt"), "text/plain", words);
  }

  async #link() {
    const link = await toLink(state.text);
    const field = make("input", { type: "text", class: "out", readonly: true, "aria-label": "Link to this sheet" });
    field.value = link;
    this.out.replaceChildren(field);
    try {
      await navigator.clipboard.writeText(link);
      say("The link is copied.");
    } catch {
      field.focus();
      field.select();
      say("Here is the link, ready to be copied.");
    }
  }
}
customElements.define("take-away", TakeAway);
