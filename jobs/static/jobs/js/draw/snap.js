// A dragged corner is caught by what was measured: noted figures, the places of other corners, full millimetres.
import { between } from "./geometry.js";
import { grain } from "./lengths.js";
import { make } from "./paper.js";

const NEAR = 7; // pixels

export function snapped(surface, place) {
  const { paper, noted, hand, held, drawn } = surface;
  const near = NEAR / paper.scale;
  const step = grain(surface.plain);
  const others = drawn.filter((figure) => !figure.behind).flatMap((figure) => figure.corners).filter((corner) => corner.name !== hand.corner.name);
  const neighbours = around(hand, held);
  const guides = [];
  const at = { ...place };
  const free = { x: true, y: true };
  for (const axis of ["x", "y"]) {
    const caught = closest(place[axis], [0, ...noted, ...others.map((corner) => corner[axis])], near);
    at[axis] = caught ?? Math.round(place[axis] / step) * step;
    free[axis] = caught === null;
    if (caught !== null) guides.push(guide(paper, axis, caught));
  }
  // The length of an edge that comes near a noted figure takes it, along the way the edge points.
  for (const other of free.x || free.y ? neighbours : []) {
    const length = between(other, place);
    const caught = closest(length, noted, near);
    if (caught === null || !length) continue;
    at.x = other.x + ((place.x - other.x) * caught) / length;
    at.y = other.y + ((place.y - other.y) * caught) / length;
    guides.push(make("path", { d: paper.path([other, at], false), class: "guide" }));
    break;
  }
  return { ...at, guides };
}

export function around({ figure, corner }) {
  const corners = figure.closed ? figure.corners : [];
  const n = corners.findIndex(({ name }) => name === corner.name);
  if (n < 0) return [];
  return [corners[(n + corners.length - 1) % corners.length], corners[(n + 1) % corners.length]];
}

function closest(figure, places, near) {
  let best = null;
  for (const place of places) {
    if (Math.abs(place - figure) < near && (best === null || Math.abs(place - figure) < Math.abs(best - figure))) best = place;
  }
  return best;
}

function guide(paper, axis, value) {
  const { x, y } = paper.at({ x: value, y: value });
  return make("path", { d: axis === "x" ? `M${x},0V${paper.height}` : `M0,${y}H${paper.width}`, class: "guide" });
}
