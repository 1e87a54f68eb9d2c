// The side view of a box from the figures of its shape, and which figures a moved corner changes.
import { read, write } from "./lengths.js";

// Of each shape its corners from the figures m: [x, y, { figure: what it becomes at (x, y) }]. Corners without
// figures of their own are drawn and stay.
const SHAPES = {
  rectangle: (m) => [[0, 0], [m.depth, 0, { depth: "x" }], [m.depth, m.height, { depth: "x", height: "y" }], [0, m.height, { height: "y" }]],
  sloped: (m) => [
    [0, 0], [m.depth, 0, { depth: "x" }],
    [m.top_depth ?? m.depth - m.height * Math.tan((m.rear_slope * Math.PI) / 180), m.height, { ...(known(m.top_depth) && { top_depth: "x" }), height: "y" }],
    [0, m.height, { height: "y" }],
  ],
  wedge: (m) => [[0, 0], [m.depth, 0, { depth: "x" }], [0, m.height, { height: "y" }]],
  knee: (m) => [
    [0, 0], [m.depth, 0, { depth: "x" }], [m.cut_depth, m.cut_height, { cut_depth: "x", cut_height: "y" }],
    [m.top_depth, m.height, { top_depth: "x", height: "y" }], [0, m.height, { height: "y" }],
  ],
  step: (m) => [
    [0, 0], [m.depth - m.cut_depth, 0, { cut_depth: "rest" }],
    [m.depth - m.cut_depth, m.cut_height, { cut_depth: "rest", cut_height: "y" }], [m.depth, m.cut_height, { depth: "x", cut_height: "y" }],
    [m.depth, m.height, { depth: "x", height: "y" }], [0, m.height, { height: "y" }],
  ],
  toe: (m) => [
    [0, 0], [m.depth, 0, { depth: "x" }], [m.depth, m.height, { depth: "x", height: "y" }], [m.cut_depth, m.height, { cut_depth: "x", height: "y" }],
    [m.cut_depth, m.cut_height, { cut_depth: "x", cut_height: "y" }], [0, m.cut_height, { cut_height: "y" }],
  ],
  corner: (m) => [
    [0, 0], [m.depth - m.cut_depth, 0, { cut_depth: "rest" }], [m.depth, m.cut_height, { cut_height: "y" }],
    [m.depth, m.height, { depth: "x", height: "y" }], [0, m.height, { height: "y" }],
  ],
  arch: (m) => {
    const step = Math.PI / 6;
    const reach = m.cut_height / Math.cos(step / 2);
    const flats = [0, 1, 2].map((k) => [m.depth - reach * Math.cos(k * step), reach * Math.sin(k * step)]);
    return [[0, 0], ...flats, [m.depth, reach, { cut_height: "reach" }], [m.depth, m.height, { depth: "x", height: "y" }], [0, m.height, { height: "y" }]];
  },
  well: (m) => [...Array(12).keys()].map((k) => {
    const turn = (2 * Math.PI * k) / 12;
    return [(m.depth / 2) * Math.cos(turn), (m.depth / 2) * Math.sin(turn), k ? undefined : { depth: "twice" }];
  }),
  // Its middle section: the tops of front and rear stand where the top was moved to.
  taper: (m) => {
    const middle = m.depth / 2 + (m.top_to_rear || 0);
    return [
      [0, 0], [m.depth, 0, { depth: "x" }], [middle + m.top_depth / 2, m.height, { top_depth: "about", height: "y" }],
      [middle - m.top_depth / 2, m.height, { height: "y" }],
    ];
  },
};
const FIGURES = ["depth", "height", "top_depth", "rear_slope", "cut_depth", "cut_height", "top_to_rear"];
const known = (figure) => Number.isFinite(figure);

export class Body {
  constructor(form, plain, words) {
    Object.assign(this, { form, plain, words, kind: "body", closed: true });
  }

  get measures() {
    const typed = (name) => this.form.elements[name]?.value || "";
    const entries = FIGURES.map((name) => [name, name === "rear_slope" ? parseFloat(typed(name).replace(",", ".")) : read(typed(name), this.plain) ?? undefined]);
    return Object.fromEntries(entries);
  }

  get shape() {
    return SHAPES[this.form.elements.shape?.value];
  }

  get corners() {
    const measures = this.measures;
    const points = this.shape?.(measures) || [];
    if (!points.length || points.some(([x, y]) => !known(x) || !known(y))) return [];
    return points.map(([x, y, changes], n) => ({
      x, y, bow: 0, still: !changes, name: `${this.words.corner} ${n + 1}`,
      put: (px, py) => this.move(changes || {}, px, py, measures),
    }));
  }

  move(changes, x, y, m) {
    for (const [name, how] of Object.entries(changes)) {
      const now = {
        x, y, rest: m.depth - x, twice: 2 * x, reach: y * Math.cos(Math.PI / 12),
        about: 2 * (x - m.depth / 2 - (m.top_to_rear || 0)),
      }[how];
      this.last = this.form.elements[name];
      if (!(Math.abs(m[name] - now) < 1e-6)) this.last.value = write(Math.max(now, 1), this.plain);
    }
  }

  tell() {
    (this.last || this.form).dispatchEvent(new Event("input", { bubbles: true }));
  }
}

// A rectangle seen from the front: two fields of the form.
export class Plate {
  constructor(form, plain, words, [width, height] = ["width", "height"]) {
    Object.assign(this, { form, plain, words, fields: [width, height], kind: "body", closed: true });
  }

  get corners() {
    const [w, h] = this.fields.map((name) => read(this.form.elements[name]?.value || "", this.plain));
    if (!known(w) || !known(h)) return [];
    const still = (x, y, n) => ({ x, y, bow: 0, still: true, name: `${this.words.corner} ${n}`, put: () => {} });
    const far = { x: w, y: h, bow: 0, name: this.words.size, put: (x, y) => this.move(x, y) };
    return [still(0, 0, 1), still(w, 0, 2), far, still(0, h, 4)];
  }

  move(x, y) {
    [x, y].forEach((size, n) => {
      this.form.elements[this.fields[n]].value = write(Math.max(size, 1), this.plain);
    });
  }

  tell() {
    this.form.elements[this.fields[0]].dispatchEvent(new Event("input", { bubbles: true }));
  }
}
