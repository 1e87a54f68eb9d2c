// Arrows and circles are drawn on a photo with a finger; what is drawn are the rows of its form.
import { cellOf, freeRow, rowOut, tell, typedRows } from "./rows.js";

const SVG = "http://www.w3.org/2000/svg", WIDE = 1000, HEAD = 45, LEAN = (28 * Math.PI) / 180;
const PLACES = ["x", "y", "to_x", "to_y"];

export function markPhotos() {
  for (const bench of document.querySelectorAll("[data-marks]")) attach(bench);
}

function attach(bench) {
  const box = bench.closest("form").querySelector(`[data-rows='${bench.dataset.marks}']`);
  const frame = bench.querySelector(".marked"), picture = frame.querySelector("img");
  const chosen = () => bench.querySelector("[data-mark]:checked").value;
  let drawn = null;
  frame.querySelector("svg")?.remove();
  const sheet = frame.appendChild(document.createElementNS(SVG, "svg"));

  const show = () => {
    const high = WIDE * (picture.naturalHeight / picture.naturalWidth || Number(bench.dataset.proportion) || 0.75);
    sheet.setAttribute("viewBox", `0 0 ${WIDE} ${high}`);
    const way = [...typedRows(box).map(read), drawn].filter(Boolean).map((mark) => wayOf(mark, high)).join("");
    sheet.replaceChildren(...[["#fff", 19], ["#000", 9]].map(([colour, width]) => stroke(way, colour, width)));
  };
  const at = (event) => {
    const area = picture.getBoundingClientRect(), within = (share) => Math.min(Math.max(share, 0), 1);
    return [within((event.clientX - area.left) / area.width), within((event.clientY - area.top) / area.height)];
  };
  frame.addEventListener("click", (event) => { if (chosen()) event.preventDefault(); });
  frame.addEventListener("dragstart", (event) => event.preventDefault());
  frame.addEventListener("pointerdown", (event) => {
    if (!chosen()) return;
    event.preventDefault();
    frame.setPointerCapture(event.pointerId);
    drawn = { shape: chosen(), places: [...at(event), ...at(event)] };
  });
  frame.addEventListener("pointermove", (event) => {
    if (!drawn) return;
    drawn.places.splice(2, 2, ...at(event));
    show();
  });
  frame.addEventListener("pointerup", () => {
    const mark = drawn;
    drawn = null;
    const [x, y, toX, toY] = mark?.places ?? [];
    // A tap is no mark.
    if (mark && Math.hypot(toX - x, toY - y) > 0.02) write(box, mark);
    show();
  });
  frame.addEventListener("pointercancel", () => { drawn = null; show(); });
  bench.addEventListener("change", () => frame.classList.toggle("is-drawn-on", Boolean(chosen())));
  bench.querySelector("[data-mark-back]").addEventListener("click", () => {
    const last = typedRows(box).at(-1);
    if (last) rowOut(box, last);
    tell(box);
  });
  box.addEventListener("input", show);
  picture.addEventListener("load", show);
  show();
}

// Percent, as the table shows them.
const share = (text) => Number.parseFloat(text.replace(",", ".")) / 100;

function read(row) {
  const places = PLACES.map((name) => share(cellOf(row, name).value)), shape = cellOf(row, "shape").value;
  return shape && places.every(Number.isFinite) ? { shape, places } : null;
}

function write(box, { shape, places }) {
  const row = freeRow(box);
  if (!row) return;
  cellOf(row, "shape").value = shape;
  PLACES.forEach((name, n) => { cellOf(row, name).value = `${(places[n] * 100).toFixed(1)} %`; });
  tell(box);
}

function wayOf({ shape, places: [left, top, toLeft, toTop] }, high) {
  const [x, y, toX, toY] = [left * WIDE, top * high, toLeft * WIDE, toTop * high];
  if (shape === "circle") {
    const radius = Math.hypot(toX - x, toY - y), arc = `A${radius} ${radius} 0 1 0`;
    return `M${x - radius} ${y}${arc} ${x + radius} ${y}${arc} ${x - radius} ${y}`;
  }
  const back = Math.atan2(y - toY, x - toX);
  const head = [-LEAN, LEAN].map((turn) => `${toX + HEAD * Math.cos(back + turn)} ${toY + HEAD * Math.sin(back + turn)}`);
  return `M${x} ${y}L${toX} ${toY}M${head[0]}L${toX} ${toY}L${head[1]}`;
}

function stroke(way, colour, width) {
  const path = document.createElementNS(SVG, "path");
  const says = { d: way, fill: "none", stroke: colour, "stroke-width": width, "stroke-linecap": "round", "stroke-linejoin": "round" };
  for (const [name, value] of Object.entries(says)) path.setAttribute(name, value);
  return path;
}
