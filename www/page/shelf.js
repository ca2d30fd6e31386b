// The dances of Saltmarsh Hall, to try the page with.
import { make, toFloor } from "./dom.js";

const DANCES = [
  { file: "lantern-on-pier-five", title: "Lantern on Pier Five", level: "absolute beginner" },
  { file: "tidewatchers-waltz", title: "Tidewatcher’s Waltz", level: "improver waltz" },
  { file: "ropewalk-reckoning", title: "Ropewalk Reckoning", level: "intermediate with tag" },
  { file: "lantern-on-pier-five-with-a-slip", title: "Lantern, with a slip", level: "find it and mend it" },
];

class DanceShelf extends HTMLElement {
  dances = DANCES;

  connectedCallback() {
    const list = make("ul", {}, ...DANCES.map((d) => make("li", {}, make("button", { type: "button", onclick: () => this.take(d) },
      make("strong", {}, d.title), make("span", {}, d.level)))));
    this.drawer = make("details", {}, make("summary", {}, "Dances to try"), list);
    this.append(make("nav", { "aria-label": "Dances to try" }, make("p", { class: "label" }, "Dances of Saltmarsh Hall to try"), this.drawer));
    // On a small screen the floor comes first and the dances wait behind one button.
    this.wide = matchMedia("(min-width: 48rem)");
    const fit = () => { this.drawer.open = this.wide.matches; };
    this.wide.addEventListener("change", fit);
    fit();
  }

  async fetch(file) {
    const answer = await fetch(`demo/${file}.txt`);
    if (!answer.ok) throw new Error(`${file} is not on the shelf`);
    return (await answer.text()).replace(/\r\n?/g, "\n");
  }

  /** The first dance, for those who have no sheet at hand. */
  first() {
    return this.take(DANCES[0]);
  }

  async take(dance) {
    const text = await this.fetch(dance.file);
    await document.querySelector("step-sheet").offer(text, dance.title, `${dance.file}.txt`);
    if (this.wide.matches) return;
    this.drawer.open = false;
    toFloor();
  }
}
customElements.define("dance-shelf", DanceShelf);
export { DANCES };
