// What goes on paper: the hand-out of the package, made when paper is asked for, in a tree of its own.
import { handout } from "./drawing.js";
import { on, state } from "./state.js";

class PrintSheet extends HTMLElement {
  connectedCallback() {
    this.attachShadow({ mode: "open" });
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
    const made = state.dance?.total ? handout() : null;
    this.shadowRoot.adoptedStyleSheets = made ? [made.sheet] : [];
    this.shadowRoot.replaceChildren(made?.content ?? "");
  }
}
customElements.define("print-sheet", PrintSheet);
