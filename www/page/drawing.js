// The footprints of the whole dance as one file. Where the package draws, its drawing is taken.
import { draw } from "./footprint.js";
import { ask, has } from "./harbour.js";
import { panel } from "./panel.js";
import { sectionName } from "./play-bar.js";
import { state } from "./state.js";

const STYLE = `.basin{fill:#fff;stroke:#12304a}.graticule path{fill:none;vector-effect:non-scaling-stroke}.fine{stroke:#c3dbe1}
.foot path{vector-effect:non-scaling-stroke}.foot-ground{fill:#fff}.foot-shadow{fill:none}.foot.left{--side:#9e2a2b}.foot.right{--side:#12604a}
.right .foot-tide{fill:#12604a}.foot-line{fill:none;stroke:var(--side);stroke-width:2}.foot-ghost{fill:none;stroke:var(--side);stroke-dasharray:4 3}
.foot[data-sole=flat] .foot-ghost{stroke:none}.still{opacity:.45}.still .foot-ground{fill:none}.hatch-ground{fill:#fff}.hatch-line{fill:#9e2a2b}
text{font-family:serif;fill:#12304a;text-anchor:middle}.sounding{font-style:italic;font-size:9px;paint-order:stroke;stroke:#fff;stroke-width:2px}
.hour{font-size:9px;font-weight:600}.needle{fill:#a3155c}.needle.from{fill:none;stroke:#a3155c}.head{font-size:12px;font-weight:600}`;

export function drawing() {
  if (has("draw")) {
    // The package knows the hall's view and that of a teacher before the class.
    const made = ask("draw", state.text, { view: state.view.side === "behind" ? "room" : "teacher" });
    if (typeof made === "string") return made;
  }
  const { dance, track } = state;
  const across = Math.min(2, dance.stretches.length);
  const down = Math.ceil(dance.stretches.length / across);
  const style = draw("style");
  style.textContent = STYLE;
  const page = draw("svg", { xmlns: "http://www.w3.org/2000/svg", viewBox: `0 0 ${across * 250} ${down * 270 + 30}`, role: "img" },
    draw("title", {}, dance.title || "A dance"), style,
    draw("text", { class: "head", x: across * 125, y: 22 }, dance.title || ""));
  dance.stretches.forEach((s, index) => {
    const one = panel(dance, track, index, state.view.side);
    const [x, y] = [(index % across) * 250, Math.floor(index / across) * 270 + 30];
    page.append(draw("text", { class: "head", x: x + 125, y: y + 14 }, sectionName(s)));
    for (const [k, v] of Object.entries({ x: x + 5, y: y + 20, width: 240, height: 240 })) one.setAttribute(k, v);
    page.append(one);
  });
  return new XMLSerializer().serializeToString(page);
}
