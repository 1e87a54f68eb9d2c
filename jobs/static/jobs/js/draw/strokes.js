// How a figure looks on the paper: its lines, and the figures beside them.
import { angleAt, arc, between, crossing, twiceArea } from "./geometry.js";
import { bare } from "./lengths.js";
import { make } from "./paper.js";

const OFF = 13; // a figure beside its edge, in pixels

export function strokes(figure, paper, plain, chosen, behind) {
  if (figure.closed) return outline(figure, paper, plain, chosen, behind);
  return figure.shapes.flatMap((shape) => (figure.kind === "blocks" ? block : opening)(shape, paper, plain));
}

function outline(figure, paper, plain, chosen, behind) {
  const corners = figure.corners;
  if (corners.length < 2) return [];
  const turn = Math.sign(twiceArea(corners)) || 1;
  const path = corners.map((here, n) => edge(here, corners[(n + 1) % corners.length], paper, turn));
  const first = paper.at(corners[0]);
  const drawn = [make("path", { d: `M${first.x},${first.y}${path.join("")}Z`, class: behind ? "line behind" : "line" })];
  if (behind) return drawn;
  const crossed = crossing(corners);
  for (const n of crossed || []) {
    drawn.push(make("path", { d: paper.path([corners[n], corners[(n + 1) % corners.length]], false), class: "line crossed" }));
  }
  const at = corners.findIndex((corner) => chosen && corner.name === chosen.name);
  if (at >= 0) drawn.push(...diagonals(corners, at, paper, plain));
  corners.forEach((here, n) => drawn.push(...size(here, corners[(n + 1) % corners.length], paper, turn, plain)));
  if (at >= 0) {
    for (const n of [at - 1, at, at + 1]) drawn.push(angle(corners, (n + corners.length) % corners.length, paper, turn));
  }
  return drawn;
}

function edge(here, there, paper, turn) {
  const { x, y } = paper.at(there);
  if (!here.bow || !between(here, there)) return `L${x},${y}`;
  const { radius, right } = arc(here, there, here.bow, turn);
  const long = Math.abs(here.bow) * 2 > between(here, there) ? 1 : 0;
  return `A${radius * paper.scale},${radius * paper.scale} 0 ${long} ${right ? 0 : 1} ${x},${y}`;
}

// The length of an edge, outside of it.
function size(here, there, paper, turn, plain) {
  const length = between(here, there);
  if (length * paper.scale < 24) return [];
  const [a, b] = [paper.at(here), paper.at(there)];
  const away = { x: ((b.y - a.y) / length / paper.scale) * -turn, y: ((a.x - b.x) / length / paper.scale) * -turn };
  const bow = (here.bow || 0) * paper.scale;
  const off = OFF + Math.max(bow, 0);
  const [x, y] = [(a.x + b.x) / 2 + away.x * off, (a.y + b.y) / 2 + away.y * off];
  let turned = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  if (turned > 90 || turned <= -90) turned += 180;
  return [make("text", { x, y, class: "size", "text-anchor": "middle", "dominant-baseline": "middle", transform: `rotate(${turned.toFixed(1)} ${x} ${y})` }, bare(length, plain))];
}

function angle(corners, n, paper, turn) {
  const count = corners.length;
  const [before, here, after] = [corners[(n + count - 1) % count], corners[n], corners[(n + 1) % count]];
  const degrees = angleAt(before, here, after, turn);
  const to = Math.atan2(after.y - here.y, after.x - here.x) + ((turn * degrees) / 360) * Math.PI;
  const { x, y } = paper.at(here);
  return make("text", {
    x: x + 30 * Math.cos(to), y: y - 30 * Math.sin(to), class: "size angle", "text-anchor": "middle", "dominant-baseline": "middle",
  }, `${Math.round(degrees * 10) / 10}°`);
}

// From the corner in hand to every one it has no edge with.
function diagonals(corners, at, paper, plain) {
  const count = corners.length;
  if (count < 4 || count > 9) return [];
  return corners.flatMap((there, n) => {
    if ([0, 1, count - 1].includes((n - at + count) % count)) return [];
    const [a, b] = [paper.at(corners[at]), paper.at(there)];
    const [x, y] = [a.x + (b.x - a.x) * 0.62, a.y + (b.y - a.y) * 0.62];
    return [
      make("path", { d: paper.path([corners[at], there], false), class: "diagonal" }),
      make("text", { x, y, class: "size diagonal-size", "text-anchor": "middle", "dominant-baseline": "middle" }, bare(between(corners[at], there), plain)),
    ];
  });
}

function block({ x, y, w, h, name }, paper, plain) {
  const corners = [{ x, y }, { x: x + w, y }, { x: x + w, y: y + h }, { x, y: y + h }];
  const hatch = [];
  const step = 9 / paper.scale;
  for (let at = step; at < w + h; at += step) {
    hatch.push(paper.path([{ x: x + Math.min(at, w), y: y + Math.max(at - w, 0) }, { x: x + Math.max(at - h, 0), y: y + Math.min(at, h) }], false));
  }
  const middle = paper.at({ x: x + w / 2, y: y + h });
  return [
    make("path", { d: hatch.join(""), class: "hatch" }),
    make("path", { d: paper.path(corners), class: "line" }),
    make("text", { x: middle.x, y: middle.y - 8, class: "size", "text-anchor": "middle" }, `${name} ${bare(w, plain)} × ${bare(h, plain)}`),
  ];
}

// A round or an angular opening with its middle lines.
function opening({ x, y, w, h, name }, paper, plain) {
  const { x: px, y: py } = paper.at({ x, y });
  const [wide, high] = [(w / 2) * paper.scale, ((h || w) / 2) * paper.scale];
  const shape = h
    ? make("rect", { x: px - wide, y: py - high, width: 2 * wide, height: 2 * high, class: "line" })
    : make("circle", { cx: px, cy: py, r: wide, class: "line" });
  const cross = make("path", { d: `M${px - wide - 8},${py}h${2 * wide + 16}M${px},${py - high - 8}v${2 * high + 16}`, class: "middle" });
  const said = h ? `${bare(w, plain)} × ${bare(h, plain)}` : `Ø ${bare(w, plain)}`;
  return [shape, cross, make("text", { x: px, y: high > 40 ? py - high / 2 : py - high - 12, class: "size", "text-anchor": "middle" }, `${name} ${said}`)];
}
