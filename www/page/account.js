// How hard the dance is: the number with its doubt, what it is made of, and where it is hardest.
import { idly, make, toFloor } from "./dom.js";
import { ask, has } from "./harbour.js";
import { on, pause, setTick, setWall, state, tell } from "./state.js";
import { sectionWords } from "./play-bar.js";

// The parts in the words of the score, each said for a class.
const PARTS = {
  amount: "How much there is to know", pace: "Pace", rhythm: "Rhythm", turning: "Turning", balance: "Balance",
  reach: "Long steps", traps: "Weight traps", memory: "Remembering the order",
};
const NS = "http://www.w3.org/2000/svg";
const svg = (name, attributes, words) => {
  const e = document.createElementNS(NS, name);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  if (words) e.textContent = words;
  return e;
};
const svgOf = (name, attributes, ...children) => {
  const e = svg(name, attributes);
  e.append(...children);
  return e;
};

class HardAccount extends HTMLElement {
  connectedCallback() {
    const show = idly(() => this.#show());
    on("findings", show);
    on("tempo", show);
    if (state.checked) this.#show();
  }

  #show() {
    if (!has("score")) return this.replaceChildren(make("p", {}, "This build of halfcount does not reckon how hard a dance is."));
    const s = state.dance?.total ? ask("score", state.text, { bpm: state.tempo }) : null;
    if (!s) return this.replaceChildren(make("p", {}, "There is nothing to reckon yet."));
    const round = (n) => String(Math.round(n));
    const grade = s.score === null
      ? make("p", { class: "grade" }, `${round(s.low)} to ${round(s.high)} `, make("small", {}, `of 100. ${s.bounds ?? ""}`))
      : make("p", { class: "grade" }, round(s.score), make("small", {}, ` of 100${s.level ? `, ${s.level}` : ""}`));
    const doubt = s.score === null ? "" : make("p", {}, `In four of five cases it lies between ${round(s.low)} and ${round(s.high)}, at ${s.tempo} beats a minute.`);
    const most = Math.max(...s.parts.map((p) => p.points), 0.1);
    const bar = (points) => svgOf("svg", { class: "share", viewBox: "0 0 100 10", preserveAspectRatio: "none", "aria-hidden": "true" },
      svg("rect", { width: ((points / most) * 100).toFixed(1), height: 10 }));
    const sorted = [...s.parts].sort((a, b) => b.points - a.points);
    const made = make("table", { class: "made-of" }, make("caption", { class: "quiet" }, "What the number is made of"),
      make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Made of"), make("th", { scope: "col" }, "points"))),
      make("tbody", {}, ...sorted.map((p) => make("tr", {}, make("th", { scope: "row" }, PARTS[p.part] ?? p.part, bar(p.points)), make("td", {}, p.points.toFixed(1))))));
    const h = s.hardest;
    const place = (count) => {
      const st = state.dance.stretches.findLast((x) => x.before < count);
      return st ? `${sectionWords(st)}, count ${count - st.before}` : `count ${count}`;
    };
    // `section 1, counts 1 to 8`, or from one section into the next.
    const stretch = ({ from, to }) => {
      const [a, b] = [place(from), place(to)].map((words) => words.split(", count "));
      return a[0] === b[0] ? `${a[0]}, counts ${a[1]} to ${b[1]}` : `${a.join(", count ")} to ${b.join(", count ")}`;
    };
    const hardest = h ? make("p", { class: "with-act" }, make("span", {}, `The hardest eight counts, red in the chart: ${stretch(h)}.`),
      make("button", { type: "button", onclick: () => { pause(); if (state.wall !== 1) setWall(1); setTick(h.from * 24); tell("place"); toFloor(); } }, "Show it on the floor")) : "";
    const easier = (s.easier ?? []).filter((e) => e.words);
    this.replaceChildren(grade, doubt, this.#profile(s, h, place, stretch), hardest, made,
      ...(easier.length ? [make("h3", {}, "What would make it easier"), make("ul", {}, ...easier.map((e) => make("li", {}, e.words, e.score === null || e.score === undefined ? "" : `: ${round(e.score)}`)))] : []),
      make("p", { class: "label" }, "Provisional: an estimate for planning. The teacher in the room decides."));
  }

  /** The points of each count as depths under a water line. */
  #profile(s, h, place, stretch) {
    const n = s.profile.length;
    if (!n) return "";
    const [width, height] = [340, 90];
    const most = Math.max(0.001, ...s.profile);
    const at = s.profile.indexOf(Math.max(...s.profile)) + 1;
    const chart = svg("svg", { class: "profile", viewBox: `0 0 ${width} ${height + 20}`, role: "img", "aria-label": `Points of each count. The most are on ${place(at)}${h ? `; the hardest eight counts are ${stretch(h)}` : ""}.` });
    const step = width / n;
    s.profile.forEach((points, i) => {
      const hard = h && i + 1 >= h.from && i + 1 <= h.to;
      chart.append(svg("rect", { class: hard ? "depth hard" : "depth", x: (i * step + 0.8).toFixed(1), y: (height - (points / most) * (height - 8)).toFixed(1), width: Math.max(1, step - 1.6).toFixed(1), height: ((points / most) * (height - 8)).toFixed(1) }));
    });
    for (const st of state.dance.stretches) {
      chart.append(svg("path", { class: "edge", d: `M${(st.before * step).toFixed(1)} 0V${height + 6}` }), svg("text", { x: (st.before * step + 3).toFixed(1), y: height + 16 }, st.kind === "main" ? (st.part === "main" || st.part.length > 2 ? "" : st.part) + st.section : st.part));
    }
    chart.append(svg("path", { class: "edge", d: `M0 ${height}H${width}` }));
    return chart;
  }
}
customElements.define("hard-account", HardAccount);
