// What cannot be danced as written, as a list, each with its mends one click away.
import { make } from "./dom.js";
import { on, state } from "./state.js";
import { capital, many } from "./wording.js";

const WORD = { error: "Cannot be danced", warning: "Probably a slip", note: "Worth knowing" };

class FindingList extends HTMLElement {
  connectedCallback() {
    this.status = make("p", { role: "status", class: "verdict" });
    this.list = make("ol", { class: "findings" });
    this.append(make("h3", { id: "found-title" }, "Does it work on the floor?"), this.status, this.list);
    this.list.setAttribute("aria-labelledby", "found-title");
    on("findings", () => this.#show());
    on("text", () => this.#show());
  }

  #show() {
    if (!state.checked) return;
    const found = state.findings;
    const serious = found.filter((f) => f.severity !== "note").length;
    this.classList.toggle("clean", serious === 0);
    const words = !state.dance?.total ? "No steps to check yet."
      : found.length === 0 ? "Nothing found: every step has a free foot, the counts fill up and the walls come out."
      : serious === 0 ? `Nothing that stops the dance. ${many(found.length, "remark")}.`
      : `${many(serious, "thing")} to mend${found.length > serious ? `, and ${many(found.length - serious, "remark")}` : ""}.`;
    if (this.status.textContent !== words) this.status.textContent = words;
    this.list.hidden = found.length === 0;
    const sheet = document.querySelector("step-sheet");
    this.list.replaceChildren(...found.map((f) => make("li", { class: f.severity },
      make("p", { class: "kind" }, make("span", { class: "badge" }, WORD[f.severity] ?? f.severity), ` line ${f.line}${f.section ? `, section ${f.section}` : ""}${f.count ? `, count ${f.count}` : ""}`),
      make("p", {}, f.message),
      make("p", { class: "acts" },
        ...f.fixes.map((fix) => make("button", { type: "button", class: "strong", onclick: () => sheet.mend(fix) }, capital(fix.title))),
        make("button", { type: "button", onclick: () => sheet.show(f.start, f.end) }, "Show me")))));
  }
}
customElements.define("finding-list", FindingList);
