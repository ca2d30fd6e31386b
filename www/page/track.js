// The feet at any moment, read from the numbers of `frameNumbers`: at a row the row itself, between two rows
// the straight way from one to the other.
import { ask } from "./harbour.js";

const WIDTH = 15;
const COLUMN = { facing: 4, left: 5, right: 10 };
const near = (from, to) => ((to - from + 540) % 360) - 180;

export class Track {
  constructor({ numbers, rows, per_count: perCount, soles }) {
    Object.assign(this, { numbers, rows, perCount, soles });
    // Facings that go on round instead of starting again at 360 turn the floor smoothly.
    this.facings = new Float64Array(rows);
    for (let row = 0, before = 0; row < rows; row += 1) {
      const facing = numbers[row * WIDTH + COLUMN.facing];
      before = row ? before + near(((before % 360) + 360) % 360, facing) : facing;
      this.facings[row] = before;
    }
  }

  static of(text, walls) {
    const answer = ask("frameNumbers", text, { perCount: 24, walls });
    return answer ? new Track(answer) : null;
  }

  #foot(column, row, next, share) {
    const [a, b] = [row * WIDTH + column, next * WIDTH + column];
    const n = this.numbers;
    const mix = (i) => n[a + i] + (n[b + i] - n[a + i]) * share;
    return {
      x: mix(0),
      y: mix(1),
      toe: n[a + 2] + near(n[a + 2], n[b + 2]) * share,
      sole: this.soles[n[a + 3]],
      weight: mix(4),
      lift: this.#lift(column, row + share),
    };
  }

  /** How far up a foot is, 0 to 1, with a soft beginning and end: frames tell only whether it is in the air. */
  #lift(column, at) {
    const air = this.soles.indexOf("air");
    let up = 0;
    for (let i = -3; i <= 3; i += 1) {
      const row = Math.max(0, Math.min(this.rows - 1, Math.round(at + i)));
      if (this.numbers[row * WIDTH + column + 3] === air) up += 1;
    }
    return up / 7;
  }

  /** The pose at a tick, whole or not. */
  at(tick) {
    const place = Math.max(0, Math.min(this.rows - 1, (tick * this.perCount) / 24));
    const row = Math.floor(place + 1e-9);
    const next = Math.min(this.rows - 1, row + 1);
    const share = Math.max(0, place - row);
    return {
      facing: this.facings[row] + (this.facings[next] - this.facings[row]) * share,
      left: this.#foot(COLUMN.left, row, next, share),
      right: this.#foot(COLUMN.right, row, next, share),
    };
  }

  /** The smallest circle that holds the feet between two ticks, nearly. */
  extent(from, to) {
    const points = [];
    const last = Math.min(this.rows - 1, Math.ceil((to * this.perCount) / 24));
    const step = Math.max(1, this.perCount / 8);
    for (let row = Math.max(0, Math.floor((from * this.perCount) / 24)); row <= last; row += step) {
      const at = Math.floor(row) * WIDTH;
      for (const column of [COLUMN.left, COLUMN.right]) points.push([this.numbers[at + column], this.numbers[at + column + 1]]);
    }
    if (!points.length) return { x: 0, y: 0, radius: 1 };
    let [x, y] = points[0];
    const farthest = () => points.reduce((best, p) => {
      const away = Math.hypot(p[0] - x, p[1] - y);
      return away > best.away ? { away, p } : best;
    }, { away: -1, p: points[0] });
    // Each step towards the farthest point is shorter than the last; the centre settles within a percent.
    for (let i = 1; i <= 80; i += 1) {
      const { p } = farthest();
      x += (p[0] - x) / (i + 1);
      y += (p[1] - y) / (i + 1);
    }
    // A heel reaches farther than the ball of its foot, which is the point that is known.
    return { x, y, radius: Math.max(0.75, farthest().away + 0.22) };
  }
}
