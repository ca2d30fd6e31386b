// The dances of Saltmarsh Hall, to try the page with.
import { make } from "./dom.js";

const DANCES = [
  { file: "lantern-on-pier-five", title: "Lantern on Pier Five", level: "absolute beginner" },
  { file: "tidewatchers-waltz", title: "Tidewatcher’s Waltz", level: "improver waltz" },
  { file: "ropewalk-reckoning", title: "Ropewalk Reckoning", level: "intermediate, with a restart and a tag" },
  { file: "lantern-on-pier-five-with-a-slip", title: "Lantern, with a slip", level: "mend the wrong step" },
];

class DanceShelf extends HTMLElement {
  dances = DANCES;

  connectedCallback() {
    this.append(make("nav", { "aria-label": "Dances to try" }, make("p", { class: "label" }, "Dances of Saltmarsh Hall to try"),
      make("ul", {}, ...DANCES.map((d) => make("li", {}, make("button", { type: "button", onclick: () => this.take(d) },
        make("strong", {}, d.title), make("span", {}, d.level)))))));
  }

  async fetch(file) {
    const answer = await fetch(`demo/${file}.txt`);
    if (!answer.ok) throw new Error(`${file} is not on the shelf`);
    return (await answer.text()).replace(/\r\n?/g, "\n");
  }

  async take(dance) {
    const text = await this.fetch(dance.file);
    document.querySelector("step-sheet").offer(text, dance.title, `${dance.file}.txt`);
  }
}
customElements.define("dance-shelf", DanceShelf);
export { DANCES };
