// The floor: a plotting circle with the clock of the hall around it, both feet on it, and what they left behind.
import { Footprint, draw, hatching } from "./footprint.js";
import { Sight } from "./sight.js";
import { on, state, stepAt, stretchAt } from "./state.js";

// The rim of the floor and the border of the chart around it; hours stand outside.
const BASIN = 104;
const [INNER, RING] = [104.5, 108.5];
const HOURS = 115;
// Metres from the middle of the window to its rim, beyond which a section is shown in parts.
const FAR = 1.2;
// Where the number of a print may stand: metres out to the side of its foot and on toward its toe.
const PLACES = [[0.125, 0], [0.125, -0.12], [0.225, 0], [0, 0.13], [0, -0.27], [-0.125, 0], [-0.125, -0.12], [0.325, 0], [-0.225, 0]];
const still = matchMedia("(prefers-reduced-motion: reduce)");
const clock = (degrees) => {
  const half = Math.round((((degrees % 360) + 360) % 360) / 15) % 24;
  return `${Math.floor(half / 2) || 12}:${half % 2 ? "30" : "00"}`;
};

class DanceFloor extends HTMLElement {
  connectedCallback() {
    this.title_ = draw("title");
    this.water = draw("g", { class: "graticule" });
    this.trail = draw("g", { class: "trail" });
    this.soundings = draw("g", { class: "soundings" });
    this.feet = ["left", "right"].map((foot) => new Footprint(foot, { hatch: "hatch" }));
    this.letters = ["L", "R"].map((letter) => draw("text", { class: `letter ${letter}`, dy: "0.36em" }, letter));
    this.plumb = draw("g", { class: "plumb" }, draw("circle", { r: 3.4 }), draw("path", { d: "M0-3.4A3.400 3.400 0 0 1 3.400 0H0ZM0 3.400A3.400 3.400 0 0 1-3.400 0H0Z" }));
    this.course = draw("path", { class: "course" });
    this.turning = draw("path", { class: "turning" });
    this.ring = draw("g", { class: "ring" });
    this.needle = draw("path", { class: "needle", d: "M0-103.500L6-91H-6Z" });
    this.scale_ = draw("g", { class: "scale" });
    this.svg = draw("svg", { viewBox: "-122 -122 244 244", role: "img", "aria-labelledby": "plot-name" },
      draw("defs", {}, hatching("hatch"), draw("clipPath", { id: "basin" }, draw("circle", { r: BASIN }))),
      draw("circle", { class: "basin", r: BASIN }),
      draw("g", { "clip-path": "url(#basin)" }, this.water, this.trail, this.course,
        ...this.feet.map((f) => f.node), this.soundings, this.plumb, ...this.letters),
      this.ring, this.turning, this.needle, this.scale_);
    this.title_.id = "plot-name";
    this.svg.prepend(this.title_);
    this.replaceChildren(this.svg);
    this.#frame();
    on("dance", () => this.#renew());
    on("view", () => this.#renew());
    on("tick", () => this.#show());
    on("place", () => this.#name());
    on("play", () => this.#name());
    still.addEventListener("change", () => this.#renew());
    this.#renew();
  }

  /** The border of the chart: bars by half-hours, and the hours as walls. */
  #frame() {
    this.bars = draw("g");
    this.ring.append(this.bars);
    const arc = (from, to, r) => [from, to].map((t) => [r * Math.sin(t), -r * Math.cos(t)].map((n) => n.toFixed(2)).join(" "));
    for (let i = 0; i < 24; i += 1) {
      const [from, to] = [(i * Math.PI) / 12, ((i + 1) * Math.PI) / 12];
      const [[a, b], [c, d]] = [arc(from, to, INNER), arc(from, to, RING)];
      const path = `M${a}A${INNER} ${INNER} 0 0 1 ${b}L${d}A${RING} ${RING} 0 0 0 ${c}Z`;
      this.bars.append(draw("path", { class: i % 2 ? "bar light" : "bar dark", d: path }));
    }
    this.hours = [];
    for (let hour = 0; hour < 12; hour += 1) {
      const main = hour % 3 === 0;
      const text = draw("text", { class: main ? "hour main" : "hour", dy: "0.36em" }, String(hour || 12));
      this.hours.push(text);
      this.ring.append(text);
    }
  }

  /** What changes only with the dance or the view: the lines of the floor. */
  #renew() {
    this.windows = new Map();
    this.trailKey = this.matrix = "";
    this.water.replaceChildren();
    const lines = [];
    for (let i = -40; i <= 40; i += 1) lines.push(`M${i / 2}-20V20M-20 ${i / 2}H20`);
    this.water.append(draw("path", { class: "fine", d: lines.join("") }),
      draw("path", { class: "station", d: "M-.12 0H.12M0-.12V.12" }), draw("circle", { class: "station", r: 0.07 }));
    this.#show();
    this.#name();
  }

  /** The windows of floor for a section: one, or several where it goes so far that the feet would be small. */
  #windows(index) {
    if (!this.windows.has(index)) {
      const parts = [];
      const cut = (before, counts) => {
        const window = state.playTrack.extent(before * 24, (before + counts) * 24);
        const half = counts >> 1;
        if (window.radius <= FAR || half < 3) return parts.push({ before, window });
        cut(before, half);
        return cut(before + half, counts - half);
      };
      const s = state.playlist?.stretches[index];
      if (s) cut(s.before, s.counts);
      else parts.push({ before: 0, window: state.playTrack.extent(state.from, state.to) });
      this.windows.set(index, parts);
    }
    return this.windows.get(index);
  }

  /** What is seen. One window slides into the next while the first step of the next is taken. */
  #seen(pose) {
    const zoom = state.view.zoom;
    if (zoom === "feet") {
      return { x: (pose.left.x + pose.right.x) / 2, y: (pose.left.y + pose.right.y) / 2, radius: 0.75 };
    }
    if (zoom === "dance") return this.#windows(-1)[0].window;
    const count = Math.max(1, Math.floor(state.tick / 24 + 1e-6));
    const index = stretchAt();
    const here = this.#windows(index);
    const now = here.findLast((part) => part.before < count) ?? here[0];
    const s = state.playlist?.stretches[index + 1];
    const next = here.find((part) => part.before === count) ?? (s?.before === count && this.#windows(index + 1)[0]);
    if (!next || still.matches || count * 24 >= state.to) return now.window;
    const u = Math.min(1, Math.max(0, (state.tick - count * 24 - 6) / 18));
    const ease = u * u * (3 - 2 * u);
    const mix = (key) => now.window[key] + (next.window[key] - now.window[key]) * ease;
    return { x: mix("x"), y: mix("y"), radius: mix("radius") };
  }

  #show() {
    const track = state.playTrack;
    this.classList.toggle("empty", !track);
    if (!track) return;
    // With reduced motion only the poses on half-counts are shown, one still picture after the other.
    const tick = still.matches ? Math.floor(state.tick / 12 + 1e-6) * 12 : state.tick;
    const pose = track.at(tick);
    this.pose = pose;
    const { view, dance } = state;
    const sight = new Sight({ ...this.#seen(pose), facing: view.ground === "turning" ? pose.facing : 0, side: view.side, half: 100 });
    this.sight = sight;
    // What depends on the sight alone is laid out again only when it moves.
    this.moved = sight.matrix !== this.matrix;
    this.matrix = sight.matrix;
    if (this.moved) this.water.setAttribute("transform", sight.matrix);
    [pose.left, pose.right].forEach((foot, i) => {
      const at = this.feet[i].set(foot, dance, sight);
      this.letters[i].setAttribute("x", at[0].toFixed(2));
      this.letters[i].setAttribute("y", at[1].toFixed(2));
      this.letters[i].setAttribute("font-size", Math.min(9, sight.scale * 0.09).toFixed(2));
      this.letters[i].classList.toggle("on-fill", foot.weight > 0.55 && foot.sole === "flat");
    });
    this.#weight(pose, sight);
    this.#trail(tick, sight);
    this.#clock(pose, sight, tick);
    this.dataset.tick = String(tick);
  }

  #weight(pose, sight) {
    const share = pose.right.weight;
    const x = pose.left.x + (pose.right.x - pose.left.x) * share;
    const y = pose.left.y + (pose.right.y - pose.left.y) * share;
    this.plumb.setAttribute("transform", `translate(${sight.point(x, y).map((n) => n.toFixed(2)).join(" ")})`);
    // The course: the way the body faces, from between the feet.
    const [hx, hy] = sight.heading(pose.facing);
    const middle = sight.point((pose.left.x + pose.right.x) / 2, (pose.left.y + pose.right.y) / 2);
    const out = (r) => `${(middle[0] + hx * r).toFixed(2)} ${(middle[1] + hy * r).toFixed(2)}`;
    const long = sight.scale * 0.52;
    const barb = (s) => `${(middle[0] + hx * (long - 5) - hy * s).toFixed(2)} ${(middle[1] + hy * (long - 5) + hx * s).toFixed(2)}`;
    this.course.setAttribute("d", `M${out(sight.scale * 0.2)}L${out(long)}M${barb(3)}L${out(long)}L${barb(-3)}`);
  }

  /** The prints of this section so far, each with its count, like soundings. */
  #trail(tick, sight) {
    if (!state.view.trails) {
      this.trail.replaceChildren();
      this.soundings.replaceChildren();
      this.trailKey = "";
      return;
    }
    const last = stepAt(tick);
    const stretch = stretchAt(tick);
    const steps = state.playlist.steps;
    const key = `${stretch} ${last} ${state.wall}`;
    if (key === this.trailKey && !this.moved) return;
    if (key !== this.trailKey) {
      this.trailKey = key;
      const shown = [];
      for (let i = last; i >= 0 && steps[i].stretch === stretch; i -= 1) {
        if (["L", "R"].includes(steps[i].who)) shown.unshift(steps[i]);
      }
      this.prints = shown.map((step) => {
        const foot = step.who === "L" ? "left" : "right";
        const print = new Footprint(foot, { hatch: "hatch", still: true });
        return { step, print, foot, label: draw("text", { class: "sounding", dy: "0.36em" }, step.count) };
      });
      this.trail.replaceChildren(...this.prints.map((p) => p.print.node));
      this.soundings.replaceChildren(...this.prints.map((p) => p.label));
    }
    // Numbers keep clear of each other and of where the feet stand; not of feet on their way, which pass.
    const taken = [];
    const stand = state.playTrack.at(steps[last]?.tick ?? tick);
    for (const { x, y, toe } of [stand.left, stand.right]) {
      const turn = (toe * Math.PI) / 180;
      for (const back of [0.02, -0.07, -0.16]) taken.push([...sight.point(x + Math.sin(turn) * back, y + Math.cos(turn) * back), sight.scale * 0.055]);
    }
    for (const { step, print, foot, label } of this.prints ?? []) {
      const pose = state.playTrack.at(step.tick)[foot];
      print.set({ ...pose, weight: 0, lift: 0 }, state.dance, sight);
      // The number stands off the outer side of the print, and moves on where another stands there already.
      const turn = (pose.toe * Math.PI) / 180;
      const way = foot === "left" ? -1 : 1;
      const spots = PLACES.map(([out, on]) => sight.point(
        pose.x + Math.cos(turn) * out * way + Math.sin(turn) * on,
        pose.y - Math.sin(turn) * out * way + Math.cos(turn) * on,
      ));
      const free = ([a, b]) => Math.hypot(a, b) < 96 && taken.every(([x, y, r]) => Math.hypot(x - a, y - b) > r + 5);
      const at = spots.find(free) ?? spots[0];
      taken.push([...at, 5]);
      label.setAttribute("x", at[0].toFixed(2));
      label.setAttribute("y", at[1].toFixed(2));
    }
  }

  #clock(pose, sight, tick) {
    if (this.moved) {
      this.hours.forEach((text, hour) => {
        const [hx, hy] = sight.heading(hour * 30);
        text.setAttribute("x", (hx * HOURS).toFixed(2));
        text.setAttribute("y", (hy * HOURS).toFixed(2));
      });
      const [fx, fy] = sight.heading(0);
      this.bars.setAttribute("transform", `rotate(${((Math.atan2(fx, -fy) * 180) / Math.PI).toFixed(2)})`);
    }
    const [x, y] = sight.heading(pose.facing);
    const angle = (Math.atan2(x, -y) * 180) / Math.PI;
    this.needle.setAttribute("transform", `rotate(${angle.toFixed(2)})`);
    // An arc on the rim tells a turn while it is danced and on the count it ends on.
    const step = state.playlist.steps[stepAt(tick + 11.9)];
    const near = step && step.turn_degrees && tick >= step.begins && tick < step.tick + 12;
    if (!near) return this.turning.setAttribute("d", "");
    const from = state.playTrack.at(step.begins).facing;
    const to = pose.facing;
    const points = [];
    for (let i = 0; i <= 32; i += 1) {
      const [hx, hy] = sight.heading(from + ((to - from) * i) / 32);
      points.push(`${(hx * 98).toFixed(2)} ${(hy * 98).toFixed(2)}`);
    }
    this.turning.setAttribute("d", Math.abs(to - from) < 1 ? "" : `M${points.join("L")}`);
  }

  #name() {
    const pose = this.pose;
    if (!pose || !state.dance) {
      this.title_.textContent = "The floor, still empty";
      return;
    }
    const step = state.playlist.steps[stepAt()];
    const where = `The floor, seen ${{ behind: "from behind the dancer", facing: "facing the dancer", mirrored: "as in a mirror" }[state.view.side]}. The dancer faces ${clock(pose.facing)}.`;
    if (!state.playing) this.title_.textContent = step ? `${where} ${step.sentence}` : `${where} Ready to begin.`;
    this.#scale();
  }

  #scale() {
    const long = this.sight.scale / 2;
    this.scale_.replaceChildren(
      draw("path", { class: "bar dark", d: `M-121 117h${(long / 2).toFixed(2)}v3.5h-${(long / 2).toFixed(2)}Z` }),
      draw("path", { class: "bar light", d: `M${(-121 + long / 2).toFixed(2)} 117h${(long / 2).toFixed(2)}v3.5h-${(long / 2).toFixed(2)}Z` }),
      draw("text", { class: "scale-text", x: -121, y: 113 }, "half a metre"));
  }
}

customElements.define("dance-floor", DanceFloor);
export { clock };
