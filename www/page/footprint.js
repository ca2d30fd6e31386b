// A footprint as a survey would draw it. Left is hatched, right is filled; what carries weight is full up to
// its share, what is on the floor has a firm line, what is not a broken one. The same for the moving floor and
// for print.
const NS = "http://www.w3.org/2000/svg";

/** Makes an element of a drawing. */
export function draw(name, attributes = {}, ...children) {
  const element = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

// A right sole of length 1, heel at 0 and tip at 1, its outer side toward positive x; y grows toward the toe.
const SOLE = "M0 0C.11 0 .15.08.14.2C.13.32.14.42.18.56C.22.73.2.88.07.97C0 1.02-.1 1.01-.15.93" +
  "C-.2.83-.19.69-.15.56C-.11.43-.09.32-.12.2C-.14.08-.11 0 0 0Z";
const HEEL = "M0 0C.11 0 .15.08.14.2C.135.27.13.31.125.33H-.105C-.1.29-.11.25-.12.2C-.14.08-.11 0 0 0Z";
const BALL = "M.18.56C.22.73.2.88.07.97C0 1.02-.1 1.01-.15.93C-.2.83-.19.69-.15.56C-.1.51.1.51.18.56Z";
const TOE = "M.185.82C.165.9.125.94.07.97C0 1.02-.1 1.01-.15.93C-.175.9-.185.86-.188.82C-.1.79.1.79.185.82Z";
const EDGE = "M.1.03C.15.08.145.14.14.2C.13.32.14.42.18.56C.22.73.2.88.07.97L.03.93C.13.86.14.73.11.58" +
  "C.07.42.06.32.07.2C.075.14.08.08.05.05Z";
const PARTS = { flat: SOLE, ball: BALL, heel: HEEL, toe: TOE, edge: EDGE, air: "" };
const REACH = { flat: [0, 1], ball: [0.5, 1], heel: [0, 0.33], toe: [0.79, 1], edge: [0, 1], air: [0, 0] };
let number = 0;

/** The hatching of the left foot, once in each drawing that shows feet. */
export function hatching(id) {
  return draw("pattern", { id, width: 0.085, height: 0.085, patternUnits: "userSpaceOnUse", patternTransform: "rotate(38)" },
    draw("rect", { class: "hatch-ground", width: 0.085, height: 0.085 }),
    draw("rect", { class: "hatch-line", width: 0.05, height: 0.085 }));
}

/** One foot that can be moved about. `place` is a function from metres to the drawing: `{ a, b, c, d, e, f }`. */
export class Footprint {
  constructor(foot, { hatch, still = false }) {
    this.foot = foot;
    const id = `tide-${foot}-${number += 1}`;
    this.level = draw("rect", { x: -0.5, y: 0, width: 1, height: 0 });
    this.shadow = draw("path", { class: "foot-shadow", d: SOLE });
    this.ghost = draw("path", { class: "foot-ghost", d: SOLE });
    this.ground = draw("path", { class: "foot-ground", d: SOLE });
    this.tide = draw("path", { class: "foot-tide", d: SOLE, "clip-path": `url(#${id})` });
    if (foot === "left") this.tide.setAttribute("fill", `url(#${hatch})`);
    this.line = draw("path", { class: "foot-line", d: SOLE });
    this.node = draw("g", { class: `foot ${foot}${still ? " still" : ""}` },
      draw("clipPath", { id }, this.level), this.shadow, this.ground, this.tide, this.ghost, this.line);
  }

  /** Puts the foot where a pose has it. */
  set(pose, body, view) {
    const size = body.foot_length;
    const side = this.foot === "right" ? size : -size;
    const turn = (pose.toe * Math.PI) / 180;
    const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
    const heel = [pose.x - sin * body.ball_share * size, pose.y - cos * body.ball_share * size];
    const at = view.point(heel[0], heel[1]);
    const across = view.vector(cos * side, -sin * side);
    const along = view.vector(sin * size, cos * size);
    this.node.setAttribute("transform", `matrix(${[...across, ...along, ...at].map((n) => n.toFixed(4)).join(" ")})`);
    const part = PARTS[pose.sole];
    if (this.sole !== pose.sole) {
      this.sole = pose.sole;
      for (const path of [this.line, this.tide]) path.setAttribute("d", part);
      this.node.dataset.sole = pose.sole;
    }
    const [low, high] = REACH[pose.sole];
    this.level.setAttribute("y", low.toFixed(3));
    this.level.setAttribute("height", (pose.weight * (high - low)).toFixed(4));
    this.shadow.setAttribute("transform", pose.lift > 0.02 ? `translate(${(0.10 * pose.lift).toFixed(3)} ${(-0.13 * pose.lift).toFixed(3)})` : "scale(0)");
    this.node.classList.toggle("up", pose.lift > 0.4);
    this.node.classList.toggle("loaded", pose.weight > 0.5);
    // The letter stands on the heel, where the mark of the weight does not come.
    const letter = (body.ball_share - 0.2) * size;
    return view.point(pose.x - sin * letter, pose.y - cos * letter);
  }
}
