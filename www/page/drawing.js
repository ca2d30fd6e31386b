// The footprints as the package draws them: the whole dance as one file, and each section for print.
import { ask } from "./harbour.js";
import { state } from "./state.js";

// The package knows the hall's view and that of a teacher before the class.
const view = () => (state.view.side === "behind" ? "room" : "teacher");

export const drawing = () => ask("draw", state.text, { view: view() });

/** A drawing for each section, without its heading, with the sentences of its steps. */
export function drawings() {
  const sections = ask("drawSections", state.text, { view: view(), prefix: "print-" }) ?? [];
  return sections.map((section) => {
    // The package escapes whatever comes from a sheet, and the page's policy runs no script from here.
    const holder = document.createElement("template");
    holder.innerHTML = section.svg;
    return { ...section, svg: holder.content.querySelector("svg") };
  });
}
