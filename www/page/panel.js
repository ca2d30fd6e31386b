// One section as a still drawing: every print it leaves with its count, the path between, and the clock.
import { Footprint, draw, hatching } from "./footprint.js";
import { freshId } from "./dom.js";
import { Sight } from "./sight.js";
import { sectionName } from "./play-bar.js";
import { stepSentence } from "./wording.js";

/** The drawing of a stretch. `side` is the way of seeing; paper is always fixed to the hall. */
export function panel(dance, track, index, side = "behind") {
  const s = dance.stretches[index];
  const from = (s.before + 1) * 24;
  const to = (s.before + s.counts) * 24 + 12;
  const sight = new Sight({ ...track.extent(from - 24, to), side, half: 96 });
  const id = freshId("panel");
  const steps = dance.steps.filter((step) => step.stretch === index && ["L", "R"].includes(step.who));
  const basin = `${id}-basin`;
  const floor = draw("g", { "clip-path": `url(#${basin})` });
  const lines = [];
  for (let i = -20; i <= 20; i += 1) lines.push(`M${i / 2}-10V10M-10 ${i / 2}H10`);
  floor.append(draw("g", { class: "graticule", transform: sight.matrix }, draw("path", { class: "fine", d: lines.join("") })));
  const before = track.at(from - 24);
  for (const foot of ["left", "right"]) {
    const print = new Footprint(foot, { hatch: id, still: true });
    print.set({ ...before[foot], weight: 0, lift: 0 }, dance, sight);
    floor.append(print.node);
  }
  const labels = [];
  const taken = [];
  for (const step of steps) {
    const foot = step.who === "L" ? "left" : "right";
    const pose = track.at(step.tick)[foot];
    const print = new Footprint(foot, { hatch: id });
    print.set({ ...pose, weight: step.effect === "+" ? 1 : 0, lift: 0 }, dance, sight);
    print.node.dataset.count = step.count;
    floor.append(print.node);
    const turn = (pose.toe * Math.PI) / 180;
    let out = foot === "left" ? -0.115 : 0.115;
    const place = () => sight.point(pose.x + Math.cos(turn) * out - Math.sin(turn) * 0.03, pose.y - Math.sin(turn) * out - Math.cos(turn) * 0.03);
    let at = place();
    for (let tries = 0; tries < 4 && taken.some(([x, y]) => Math.hypot(x - at[0], y - at[1]) < 9); tries += 1) {
      out += foot === "left" ? -0.09 : 0.09;
      at = place();
    }
    taken.push(at);
    labels.push(draw("text", { class: "sounding big", x: at[0].toFixed(2), y: at[1].toFixed(2), dy: "0.36em" }, step.count));
  }
  floor.append(...labels);
  const walls = [0, 3, 6, 9].map((hour) => {
    const [x, y] = sight.heading(hour * 30);
    return draw("text", { class: "hour main", x: (x * 112).toFixed(2), y: (y * 112).toFixed(2), dy: "0.36em" }, `${hour || 12}`);
  });
  const needle = (facing, kind) => {
    const [x, y] = sight.heading(facing);
    return draw("path", { class: kind, d: "M0-94L5-103H-5Z", transform: `rotate(${((Math.atan2(x, -y) * 180) / Math.PI).toFixed(2)})` });
  };
  const title = draw("title", {}, `${sectionName(s)}. ${steps.map(stepSentence).join(" ")}`);
  return draw("svg", { viewBox: "-120 -120 240 240", role: "img", class: "panel" }, title,
    draw("defs", {}, hatching(id), draw("clipPath", { id: basin }, draw("circle", { r: 100 }))),
    draw("circle", { class: "basin rim", r: 102 }), floor, needle(track.at(from - 24).facing, "needle from"), needle(track.at(to).facing, "needle"), ...walls);
}
