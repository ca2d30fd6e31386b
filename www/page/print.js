// What goes on paper: the hand-out of the package, made when paper is asked for.
import { handout } from "./drawing.js";
import { on, state } from "./state.js";

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
    this.replaceChildren(...(state.dance?.total ? [handout() ?? ""] : []));
  }
}
customElements.define("print-sheet", PrintSheet);
