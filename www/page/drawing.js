// The footprints as the package draws them: the whole dance as one file, and a hand-out for paper.
import { ask } from "./harbour.js";
import { state } from "./state.js";

// The package knows the hall's view and that of a teacher before the class.
const view = () => (state.view.side === "behind" ? "room" : "teacher");

// The paper in the looks of the page.
const OURS = `h1,h2,h3{font-family:var(--serif)}h1{border:1.5pt solid;outline:.5pt solid;outline-offset:1.2mm;padding:2.5mm 4mm;margin:1.5mm 1.5mm 4mm}
.calls{font-family:var(--serif)}:host{font-family:var(--sans);font-size:9.5pt}.cautions p{font-size:8.5pt;margin-bottom:.8mm}h2{margin:2mm 0 .8mm}p{margin-bottom:1mm}.legend{display:grid;grid-template-columns:112mm 1fr;gap:0 6mm;align-items:center}.legend h2{grid-column:1/-1}.section{margin-bottom:1mm}.section h3{margin-top:1mm}.plans svg{zoom:.67}`;

export const drawing = () => ask("draw", state.text, { view: view() });

/** The hand-out of the package and its styles, made for a tree of its own; `null` where there is none. */
export function handout() {
  const page = ask("draw", state.text, { view: view(), page: "a4", prefix: "print-" });
  const [, looks, body] = page?.match(/<style>([^]*?)<\/style>[^]*?<body>([^]*)<\/body>/) ?? [];
  if (!body) return null;
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`${looks.replace(/@page\s*\{[^}]*\}/, "").replaceAll("body{", ":host{")}${OURS}`);
  // What a sheet says is escaped by the package; styles in elements are not let in by the page's policy.
  const holder = document.createElement("template");
  holder.innerHTML = body.replace(/ style="[^"]*"/g, "");
  return { sheet, content: holder.content };
}
