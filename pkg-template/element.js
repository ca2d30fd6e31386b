// A custom element that shows both feet on the floor. `defineFloor` makes it known; nothing happens at import.

const NS = "http://www.w3.org/2000/svg";
const PER_COUNT = 8;
const STYLE = `:host{display:block;color:var(--halfcount-ink,inherit)}
svg{display:block;width:100%;max-height:var(--halfcount-height,22rem);background:var(--halfcount-floor,transparent);border:1px solid}
.l{fill:var(--halfcount-left,#1b6ca8)}.r{fill:var(--halfcount-right,#b3431e)}
.f{stroke:currentColor;stroke-width:.01}.f.free{fill-opacity:.15}.f.air{stroke-dasharray:.02}
text{font:.11px sans-serif;fill:#fff;text-anchor:middle;dominant-baseline:central}.free text{fill:currentColor}
.w{fill:none;stroke:currentColor;stroke-opacity:.35;stroke-width:.008}
.b{display:flex;flex-wrap:wrap;gap:.5em;align-items:center;margin-top:.5em}
button{font:inherit;min-width:44px;min-height:44px}`;

function make(name, parent, attributes = {}) {
  const made = name === "svg" || parent.namespaceURI === NS ? document.createElementNS(NS, name) : document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return parent.appendChild(made);
}

export function defineFloor(source, name = "halfcount-floor") {
  if (customElements.get(name)) return;
  customElements.define(name, class extends HTMLElement {
    static observedAttributes = ["text", "bpm"];
    #sheet; #data; #at = 0; #frame = 0; #asked = 0; #parts; #said;

    constructor() {
      super();
      const shadow = this.attachShadow({ mode: "open" });
      const style = new CSSStyleSheet();
      style.replaceSync(STYLE);
      shadow.adoptedStyleSheets = [style];
      const group = make("div", shadow, { role: "group", "aria-label": "Footprints" });
      const svg = make("svg", group, { role: "img", "aria-label": "The floor; 12:00 is at the top" });
      const path = make("path", svg, { class: "w" });
      const foot = (side, letter) => {
        const g = make("g", svg, { class: `f ${side}` });
        make("ellipse", g, { rx: 0.05, ry: 0.07 });
        make("ellipse", g, { cy: 0.15, rx: 0.035, ry: 0.045 });
        make("text", g).textContent = letter;
        return g;
      };
      const feet = [foot("l", "L"), foot("r", "R")];
      const bar = make("div", group, { class: "b" });
      const button = (label, act) => {
        const made = make("button", bar, { type: "button" });
        made.textContent = label;
        made.addEventListener("click", act);
        return made;
      };
      button("Back", () => this.step(-1));
      const play = button("Play", () => (this.playing ? this.pause() : this.play()));
      button("Step", () => this.step(1));
      const said = make("span", bar, { role: "status" });
      this.#parts = { svg, path, feet, play, said };
    }

    get text() { return this.#sheet ?? this.getAttribute("text") ?? this.textContent; }
    set text(sheet) { this.#sheet = String(sheet); this.#load(); }
    get bpm() { return Number(this.getAttribute("bpm")) || 100; }
    set bpm(bpm) { this.setAttribute("bpm", bpm); }
    get count() { return this.#at; }
    set count(count) { this.pause(); this.#show(count); }
    get playing() { return this.#frame !== 0; }

    connectedCallback() { this.#load(); }
    disconnectedCallback() { this.pause(); }
    attributeChangedCallback(attribute) { if (attribute === "text" && this.isConnected) this.text = this.getAttribute("text"); }

    async #load() {
      this.pause();
      const asked = ++this.#asked;
      const { svg, path, said } = this.#parts;
      let data;
      try {
        data = await source.frameNumbers(this.text, { perCount: PER_COUNT });
      } catch (error) {
        if (asked === this.#asked) said.textContent = error.message;
        return;
      }
      if (asked !== this.#asked) return;
      this.#data = data;
      this.#said = undefined;
      const xs = [], ys = [];
      for (let row = 0; row < data.rows; row++) {
        const at = this.#row(row);
        xs.push(at.left_x, at.right_x);
        ys.push(-at.left_y, -at.right_y);
      }
      const [x, y] = [Math.min(...xs) - 0.4, Math.min(...ys) - 0.4];
      const [width, height] = [Math.max(...xs) + 0.4 - x, Math.max(...ys) + 0.4 - y];
      svg.setAttribute("viewBox", [x, y, width, height].map((n) => n.toFixed(2)).join(" "));
      const lines = [];
      for (let n = Math.ceil(x * 2); n < (x + width) * 2; n++) lines.push(`M${n / 2} ${y}v${height}`);
      for (let n = Math.ceil(y * 2); n < (y + height) * 2; n++) lines.push(`M${x} ${n / 2}h${width}`);
      path.setAttribute("d", lines.join(""));
      this.#show(0);
    }

    #row(row) {
      const { columns, numbers } = this.#data;
      return Object.fromEntries(columns.map((name, column) => [name, numbers[row * columns.length + column]]));
    }

    #show(count) {
      if (!this.#data) return;
      const { rows, parts, soles } = this.#data;
      const place = Math.max(0, Math.min(count * PER_COUNT, rows - 1)) || 0;
      this.#at = place / PER_COUNT;
      const row = Math.floor(place);
      const [a, b] = [this.#row(row), this.#row(Math.min(row + 1, rows - 1))];
      const between = (name) => a[name] + (b[name] - a[name]) * (place - row);
      for (const [side, foot] of ["left", "right"].map((side, index) => [side, this.#parts.feet[index]])) {
        // The shorter way round, so that 350 degrees go on to 10 and not back.
        const turn = ((b[`${side}_toe`] - a[`${side}_toe`] + 540) % 360) - 180;
        const toe = a[`${side}_toe`] + turn * (place - row);
        foot.setAttribute("transform", `translate(${between(`${side}_x`).toFixed(3)} ${(-between(`${side}_y`)).toFixed(3)}) rotate(${toe.toFixed(1)})`);
        foot.classList.toggle("free", between(`${side}_weight`) < 0.5);
        foot.classList.toggle("air", soles[a[`${side}_sole`]] === "air");
      }
      const half = Math.floor(this.#at * 2) / 2;
      if (half === this.#said) return;
      this.#said = half;
      const at = this.#row(half * PER_COUNT);
      const weight = at.left_weight === at.right_weight ? "both feet" : at.left_weight > at.right_weight ? "the left foot" : "the right foot";
      const hour = Math.round(at.facing / 15) / 2 || 12;
      const clock = `${Math.floor(hour) || 12}:${hour % 1 ? "30" : "00"}`;
      this.#parts.said.textContent = `${parts[at.part] === "main" ? "" : `${parts[at.part]}, `}section ${at.section}, count ${Math.floor(at.count)}${at.count % 1 ? "&" : ""}: weight on ${weight}, facing ${clock}`;
      this.dispatchEvent(new CustomEvent("halfcount-moment", { detail: { count: half } }));
    }

    play() {
      if (this.playing || !this.#data) return;
      const last = (this.#data.rows - 1) / PER_COUNT;
      const from = this.#at >= last ? 0 : this.#at;
      const started = performance.now();
      // Who asked for less motion sees one half-count after the other.
      const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
      const tick = (now) => {
        const count = from + (Math.max(0, now - started) / 60000) * this.bpm;
        this.#show(calm ? Math.floor(count * 2) / 2 : count);
        if (count >= last) this.pause();
        else this.#frame = requestAnimationFrame(tick);
      };
      // Nobody wants every half-count read out while it moves.
      this.#parts.said.setAttribute("aria-live", "off");
      this.#parts.play.textContent = "Pause";
      this.#frame = requestAnimationFrame(tick);
    }

    pause() {
      cancelAnimationFrame(this.#frame);
      this.#frame = 0;
      this.#parts.play.textContent = "Play";
      this.#parts.said.setAttribute("aria-live", "polite");
    }

    step(halves = 1) {
      this.pause();
      this.#show((Math.floor(this.#at * 2) + halves) / 2);
    }
  });
}
