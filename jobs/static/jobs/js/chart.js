// A read-out for a drawn chart: the drawing says its frame and axes, its polylines are the data.
const SVG = "http://www.w3.org/2000/svg";

export function readCharts(root) {
  for (const box of root.querySelectorAll?.("[data-chart]") ?? []) {
    const drawing = box.querySelector("svg[data-frame]");
    if (drawing && !box.dataset.ready) attach(box, drawing);
  }
}

function axis(text, low, high) {
  const [kind, from, to, ...unit] = text.split(" ");
  const log = kind === "log";
  const a = log ? Math.log(+from) : +from;
  const b = log ? Math.log(+to) : +to;
  const back = (v) => (log ? Math.exp(v) : v);
  return {
    unit: unit.join(" "),
    value: (at) => back(a + ((at - low) / (high - low)) * (b - a)),
  };
}

function curves(drawing) {
  const found = new Map();
  for (const line of drawing.querySelectorAll("polyline[data-series]")) {
    const points = line.getAttribute("points").trim().split(/\s+/).map((pair) => pair.split(",").map(Number));
    const name = line.dataset.series;
    found.set(name, [...(found.get(name) || []), points]);
  }
  return found;
}

function height(pieces, x) {
  for (const points of pieces) {
    for (let i = 1; i < points.length; i += 1) {
      const [x0, y0] = points[i - 1];
      const [x1, y1] = points[i];
      if (x >= Math.min(x0, x1) && x <= Math.max(x0, x1)) return x1 === x0 ? y1 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
    }
  }
  return null;
}

function attach(box, drawing) {
  const [left, top, right, bottom] = drawing.dataset.frame.split(" ").map(Number);
  const xs = axis(drawing.dataset.x, left, right);
  const ys = axis(drawing.dataset.y, bottom, top);
  const lines = curves(drawing);
  if (!lines.size) return;
  const say = new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: 3 });

  const hair = document.createElementNS(SVG, "line");
  hair.setAttribute("class", "chart-hair");
  hair.setAttribute("y1", top);
  hair.setAttribute("y2", bottom);
  const read = document.createElement("p");
  read.className = "chart-read";
  read.setAttribute("role", "status");
  box.after(read);
  box.tabIndex = 0;
  box.setAttribute("role", "group");
  box.setAttribute("aria-label", drawing.querySelector("title")?.textContent || "");
  box.dataset.ready = "yes";
  read.textContent = box.dataset.hint || "";
  let at = null;

  function show(x) {
    at = Math.min(right, Math.max(left, x));
    hair.setAttribute("x1", at);
    hair.setAttribute("x2", at);
    if (!hair.isConnected) drawing.append(hair);
    const parts = [[say.format(xs.value(at)), xs.unit, ""]];
    for (const [name, pieces] of lines) {
      const y = height(pieces, at);
      if (y !== null) parts.push([say.format(ys.value(y)), ys.unit, name]);
    }
    read.replaceChildren(...parts.map(([figure, unit, name]) => {
      const item = document.createElement("span");
      const bold = document.createElement("b");
      bold.textContent = `${figure} ${unit}`.trim();
      item.append(name ? `${name} ` : "", bold);
      return item;
    }));
  }
  function clear() {
    at = null;
    hair.remove();
    read.replaceChildren(box.dataset.hint || "");
  }
  function where(event) {
    const place = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
    return place.x;
  }

  drawing.addEventListener("pointermove", (event) => show(where(event)));
  drawing.addEventListener("pointerdown", (event) => show(where(event)));
  drawing.addEventListener("pointerleave", (event) => event.pointerType === "mouse" && clear());
  box.addEventListener("keydown", (event) => {
    const step = (right - left) / (event.shiftKey ? 20 : 100);
    const move = { ArrowLeft: -step, ArrowRight: step }[event.key];
    if (event.key === "Escape") clear();
    if (event.key === "Home") show(left);
    if (event.key === "End") show(right);
    if (move) show((at ?? left) + move);
    if (move || event.key === "Home" || event.key === "End") event.preventDefault();
  });
}
