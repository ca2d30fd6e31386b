// The footprints as the package draws them: the whole dance as one file, and a hand-out for paper.
import { ask } from "./harbour.js";
import { state } from "./state.js";

// The package knows the hall's view and that of a teacher before the class.
const view = () => (state.view.side === "behind" ? "room" : "teacher");

export const drawing = () => ask("draw", state.text, { view: view() });

/** The hand-out of the package without its own head, for the page's print styles; `null` where there is none. */
export function handout() {
  const page = ask("draw", state.text, { view: view(), page: "a4", prefix: "print-" });
  if (!page) return null;
  // What a sheet says is escaped by the package; styles in elements are not let in by the page's policy.
  const plain = page.slice(page.indexOf("<body>") + 6, page.lastIndexOf("</body>")).replace(/ style="[^"]*"/g, "");
  const holder = document.createElement("template");
  holder.innerHTML = plain;
  return holder.content;
}
