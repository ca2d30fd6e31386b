// From metres of the hall to units of a drawing: which part of the floor is seen, from which side, how far
// turned. Letters and numbers are placed by it but never turned or mirrored.

const SIDES = { behind: [1, -1], facing: [-1, 1], mirrored: [1, 1] };

export class Sight {
  /** `half` is half the drawing's width in its own units; `radius` metres of floor fit into it. */
  constructor({ x, y, radius, facing = 0, side = "behind", half = 100 }) {
    const scale = half / radius;
    const turn = (facing * Math.PI) / 180;
    const [sx, sy] = SIDES[side] ?? SIDES.behind;
    Object.assign(this, { x, y, scale, radius });
    this.a = scale * sx * Math.cos(turn);
    this.c = -scale * sx * Math.sin(turn);
    this.b = scale * sy * Math.sin(turn);
    this.d = scale * sy * Math.cos(turn);
  }

  vector(x, y) {
    return [this.a * x + this.c * y, this.b * x + this.d * y];
  }

  point(x, y) {
    return this.vector(x - this.x, y - this.y);
  }

  /** The unit vector of a heading in degrees clockwise from 12:00. */
  heading(degrees) {
    const turn = (degrees * Math.PI) / 180;
    const [x, y] = this.vector(Math.sin(turn), Math.cos(turn));
    return [x / this.scale, y / this.scale];
  }

  get matrix() {
    const [e, f] = this.point(0, 0);
    return `matrix(${[this.a, this.b, this.c, this.d, e, f].map((n) => n.toFixed(4)).join(" ")})`;
  }
}
