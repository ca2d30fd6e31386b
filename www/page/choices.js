// How the dance is seen, heard and paced.
import { Footprint, draw, hatching } from "./footprint.js";
import { Sight } from "./sight.js";
import { choice, freshId, make, tick } from "./dom.js";
import { on, setTempo, setView, setWall, state } from "./state.js";

class ViewChoices extends HTMLElement {
  connectedCallback() {
    const v = state.view;
    const id = freshId("tempo");
    this.tempo = make("input", { id, type: "number", min: 20, max: 300, step: 1, inputmode: "numeric", onchange: (e) => setTempo(Number(e.target.value)) });
    this.wall = make("div", { class: "slot" });
    const pace = make("fieldset", {}, make("legend", {}, "Pace"),
      choice("Speed", [["0.25", "a quarter"], ["0.5", "half"], ["0.75", "three quarters"], ["1", "full"]], String(v.speed), (s) => setView({ speed: Number(s) })),
      make("div", { class: "field" }, make("label", { for: id }, "Beats a minute"), this.tempo),
      this.wall,
      tick("Count in first", v.countIn, (countIn) => setView({ countIn })));
    const look = make("fieldset", {}, make("legend", {}, "Look"),
      choice("Seen", [["behind", "from behind"], ["facing", "facing you"], ["mirrored", "as in a mirror"]], v.side, (side) => setView({ side })),
      choice("Floor", [["fixed", "stays put"], ["turning", "turns with the dancer"]], v.ground, (ground) => setView({ ground })),
      choice("Show", [["section", "this section"], ["dance", "the whole dance"], ["feet", "close to the feet"]], v.zoom, (zoom) => setView({ zoom })),
      tick("Leave prints", v.trails, (trails) => setView({ trails })));
    const hear = make("fieldset", {}, make("legend", {}, "Sound"),
      tick("Click on the count", v.click, (click) => setView({ click })),
      choice("Voice", [["none", "silent"], ["counts", "says the counts"], ["calls", "calls the figures"]], v.voice, (voice) => setView({ voice })));
    this.append(make("details", { class: "drawer", open: innerWidth > 700 }, make("summary", {}, "Pace, look and sound"), make("div", { class: "choices" }, pace, look, hear)),
      make("details", { class: "drawer" }, make("summary", {}, "How to read the prints"), legend(), keys()));
    on("dance", () => this.#renew());
    on("tempo", () => { this.tempo.value = state.tempo; });
    this.#renew();
  }

  #renew() {
    this.tempo.value = state.tempo;
    const runs = state.dance?.runs ?? [];
    const walls = [];
    for (const run of runs) if (run.kind === "main" && !walls[run.wall]) walls[run.wall] = run.facing;
    const options = walls.map((facing, wall) => [String(wall), `${wall}, facing ${facing}`]).filter(Boolean);
    options.push(["0", "the whole song"]);
    this.wall.replaceChildren(choice("Wall", options, String(state.wall), (wall) => setWall(Number(wall))));
  }
}
customElements.define("view-choices", ViewChoices);

/** What each form of print stands for; drawn by the same hand as the floor. */
function legend() {
  const list = make("ul", { class: "key-list" });
  list.innerHTML = [
    ["left", "flat", 1, "Left foot: hatched, marked L"], ["right", "flat", 1, "Right foot: filled, marked R"],
    ["right", "flat", 0.5, "The fill rises with the weight"], ["right", "flat", 0, "On the floor without weight"],
    ["right", "ball", 1, "On the ball, heel lifted"], ["right", "heel", 0, "On the heel"], ["right", "toe", 0, "Touch with the toe"],
    ["right", "air", 0, "In the air, with its shadow"],
  ].map(([foot, sole, weight, words]) => `<li><svg viewBox="-24 -22 48 46" data-foot="${foot}" data-sole="${sole}" data-weight="${weight}" aria-hidden="true"></svg><span>${words}</span></li>`).join("")
    + `<li><svg viewBox="-22 -22 44 44" aria-hidden="true"><g class="plumb big"><circle r="9"/><path d="M0-9A9 9 0 0 1 9 0H0ZM0 9A9 9 0 0 1-9 0H0Z"/></g></svg><span>Where the weight is</span></li>`
    + `<li><svg viewBox="-22 -22 44 44" aria-hidden="true"><path class="needle" d="M0 8L8-8H-8Z"/></svg><span>The wall the dancer faces; an arc beside it shows a turn</span></li>`;
  for (const svg of list.querySelectorAll("[data-foot]")) {
    const id = freshId("key-hatch");
    svg.append(draw("defs", {}, hatching(id)));
    const foot = new Footprint(svg.dataset.foot, { hatch: id });
    svg.append(foot.node);
    const sight = new Sight({ x: 0, y: 0, radius: 0.22, half: 32 });
    foot.set({ x: 0, y: 0.05, toe: 0, sole: svg.dataset.sole, weight: Number(svg.dataset.weight), lift: svg.dataset.sole === "air" ? 1 : 0 },
      { foot_length: 0.25, foot_breadth: 0.1, ball_share: 0.73 }, sight);
  }
  return list;
}

function keys() {
  const rows = [["Space", "play and pause"], ["← →", "half a count back and on"], ["Page Up, Page Down", "section before and after"], ["Home", "to the start"], ["R", "repeat the section"], ["F8", "in the sheet: the next thing to mend"], ["M", "the next way of seeing: behind, facing, mirror"]];
  return make("div", { class: "keys" }, make("h2", {}, "Keys"), make("p", {}, "While you are not typing:"),
    make("dl", {}, ...rows.flatMap(([k, w]) => [make("dt", {}, make("kbd", {}, k)), make("dd", {}, w)])));
}
