// The sheet a shape is drawn on: squared paper with a rule along two sides, and where a millimetre lies on it.
const SVG = "http://www.w3.org/2000/svg";
const EDGE = 26; // the rule, in pixels
const AIR = 34; // for the figures round a shape

export function make(name, attributes = {}, text = "") {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  if (text) node.textContent = text;
  return node;
}

export class Paper {
  constructor(svg) {
    this.svg = svg;
    this.frame([]);
  }

  // Lays the paper so that these points lie on it, with air for the figures round them.
  frame(points) {
    const xs = points.map(({ x }) => x);
    const ys = points.map(({ y }) => y);
    const [left, right, low, high] = points.length ? [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)] : [0, 500, 0, 350];
    this.width = Math.max(this.svg.clientWidth, 240);
    this.height = Math.max(this.svg.clientHeight, 200);
    const room = [this.width - EDGE - 2 * AIR, this.height - EDGE - 2 * AIR];
    this.scale = Math.min(room[0] / Math.max(right - left, 50), room[1] / Math.max(high - low, 50));
    this.x0 = EDGE + AIR + (room[0] - (right - left) * this.scale) / 2 - left * this.scale;
    this.y0 = AIR + (room[1] + (high - low) * this.scale) / 2 + low * this.scale;
    this.svg.setAttribute("viewBox", `0 0 ${this.width} ${this.height}`);
  }

  // Whether a point lies on the paper still, with its figures.
  holds(point) {
    const { x, y } = this.at(point);
    return x > EDGE + 8 && x < this.width - 8 && y > 8 && y < this.height - EDGE - 8;
  }

  at({ x, y }) {
    return { x: this.x0 + x * this.scale, y: this.y0 - y * this.scale };
  }

  back(event) {
    const box = this.svg.getBoundingClientRect();
    const [px, py] = [((event.clientX - box.left) * this.width) / box.width, ((event.clientY - box.top) * this.height) / box.height];
    return { x: (px - this.x0) / this.scale, y: (this.y0 - py) / this.scale };
  }

  path(points, closed = true) {
    const line = points.map((point) => {
      const { x, y } = this.at(point);
      return `${x.toFixed(1)},${y.toFixed(1)}`;
    });
    return `M${line.join("L")}${closed ? "Z" : ""}`;
  }

  // Squares, and the rules below and at the left.
  ground(plain) {
    const unit = plain === "in" ? 25.4 : 10;
    const steps = plain === "in" ? [0.25, 1, 2, 6, 12] : [1, 5, 10, 20, 50];
    // However large what was typed is: never more lines than can be told apart.
    const square = unit * (steps.find((step) => step * unit * this.scale >= 9) || 10 ** Math.ceil(Math.log10(9 / unit / this.scale)));
    const far = { x: (this.width - this.x0) / this.scale, y: this.y0 / this.scale };
    const near = { x: (EDGE - this.x0) / this.scale, y: (this.y0 - this.height + EDGE) / this.scale };
    const [thin, thick, ticks] = ["", "", ""].map(() => []);
    const figures = [];
    const every = plain === "in" ? 4 : 5;
    const foot = this.height - EDGE;
    const lines = (from, to, draw) => {
      for (let n = Math.ceil(from / square); n * square <= to; n += 1) draw(n * square, n % every === 0);
    };
    lines(near.x, far.x, (x, large) => {
      const at = this.at({ x, y: 0 }).x.toFixed(1);
      (large ? thick : thin).push(`M${at},0V${foot}`);
      ticks.push(`M${at},${foot}v${large ? 9 : 4}`);
      if (large) figures.push([at, foot + 21, x, "middle"]);
    });
    lines(near.y, far.y, (y, large) => {
      const at = this.at({ x: 0, y }).y.toFixed(1);
      (large ? thick : thin).push(`M${EDGE},${at}H${this.width}`);
      ticks.push(`M${EDGE},${at}h${large ? -9 : -4}`);
      if (large) figures.push([12, at, y, "middle"]);
    });
    return [
      make("path", { d: thin.join(""), class: "squares" }),
      make("path", { d: thick.join(""), class: "squares large" }),
      make("path", { d: `M${EDGE},0V${foot}H${this.width}${ticks.join("")}`, class: "ruler" }),
      ...figures.map(([x, y, figure, anchor]) => make(
        "text", { x, y, class: "ruler-figure", "text-anchor": anchor, "dominant-baseline": x === 12 ? "middle" : "auto", ...(x === 12 && { transform: `rotate(-90 12 ${y})` }) },
        String(Math.round((figure / (plain === "in" ? 25.4 : 1)) * 10) / 10),
      )),
    ];
  }
}
