// The sizes of the corner in hand, typed: its place, its edges, its angle, a diagonal, a bow; and figures to snap to.
import { angleAt, between, meeting, twiceArea } from "./geometry.js";
import { read, write } from "./lengths.js";
import { around } from "./snap.js";

const LARGEST = 1e6; // as the server takes a length

export function typedSizes(surface) {
  const { box, plain, words } = surface;
  const panel = box.querySelector("[data-surface-sizes]");
  const field = (name) => panel.querySelector(`[data-size="${name}"]`);
  const to = field("to");
  let shown = null;

  // Nothing here is a field of the form: what is typed is carried over to those.
  panel.addEventListener("input", (event) => event.stopPropagation());
  panel.addEventListener("change", (event) => {
    event.stopPropagation();
    const name = event.target.dataset.size;
    if (name === "to") show();
    else if (name) take(name, event.target);
  });
  panel.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.dataset.size) return;
    event.preventDefault(); // the form is not sent by a size
    take(event.target.dataset.size, event.target);
  });
  const notes = box.querySelector("[data-surface-noted]");
  for (const name of ["input", "change"]) notes?.addEventListener(name, (event) => event.stopPropagation());
  notes?.querySelector("[data-note]").addEventListener("click", note);
  notes?.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || !event.target.matches("input")) return;
    event.preventDefault();
    note();
  });

  function corners() {
    const { hand } = surface;
    if (!hand?.figure.closed) return null;
    const all = hand.figure.corners;
    const n = all.findIndex(({ name }) => name === hand.corner.name);
    const [before, after] = around(hand);
    return { all, n, before, here: all[n], after, turn: Math.sign(twiceArea(all)) || 1 };
  }

  const put = (corner, { x, y }) => surface.change(() => corner.put(x, y));
  const along = (from, there, length) => {
    const now = between(from, there) || 1;
    return { x: from.x + ((there.x - from.x) * length) / now, y: from.y + ((there.y - from.y) * length) / now };
  };

  function take(name, input) {
    const { corner, figure } = surface.hand || {};
    const value = name === "angle" ? parseFloat(input.value.replace(",", ".")) : read(input.value, plain);
    if (!corner || !Number.isFinite(value)) {
      if (input.value.trim()) surface.warn(words.unreadable);
      return;
    }
    if (Math.abs(value) > LARGEST) return surface.warn(words.toolarge);
    if (["before", "after", "diagonal"].includes(name) && value <= 0) return surface.warn(words.nolength);
    const ring = corners();
    if (name === "x") put(corner, { x: value, y: corner.y });
    else if (name === "y") put(corner, { x: corner.x, y: value });
    else if (name === "before") put(corner, along(ring.before, corner, value));
    else if (name === "after") put(ring.after.still ? corner : ring.after, ring.after.still ? along(ring.after, corner, value) : along(corner, ring.after, value));
    else if (name === "angle") turn(ring, value);
    else if (name === "diagonal") reach(ring, value);
    else if (name === "bow" && Math.abs(value) * 2 > between(corner, ring.after) + 1e-6) return surface.warn(words.halfround);
    else if (name === "bow") surface.change(() => figure.bow(corner.row, value));
    if (!surface.drawn.flatMap((one) => one.corners).every((one) => surface.paper.holds(one))) surface.lay();
  }

  // The edge after the corner turns about it and keeps its length.
  function turn(ring, degrees) {
    const from = Math.atan2(ring.before.y - ring.here.y, ring.before.x - ring.here.x);
    const way = from - (ring.turn * degrees * Math.PI) / 180;
    const length = between(ring.here, ring.after);
    put(ring.after, { x: ring.here.x + length * Math.cos(way), y: ring.here.y + length * Math.sin(way) });
  }

  // A corner from two lengths: to the one before it, which stays, and a diagonal.
  function reach(ring, length) {
    const other = ring.all[Number(to.value)];
    const place = meeting(ring.before, between(ring.before, ring.here), other, length, ring.here);
    if (place) put(ring.here, place);
    else surface.warn(words.nomeeting);
  }

  function show() {
    const { hand } = surface;
    panel.hidden = !hand;
    if (!hand) return;
    const ring = corners();
    panel.querySelector("[data-size-of]").textContent = hand.corner.name;
    const set = (name, text) => {
      const input = field(name);
      if (!input) return;
      input.closest("label").hidden = text === null;
      // What stands there already is left alone: a browser that takes back letters would lose its place.
      if (text === null || input.value === text) return;
      if (input !== document.activeElement || surface.busy) input.value = text;
    };
    set("x", write(hand.corner.x, plain));
    set("y", write(hand.corner.y, plain));
    set("before", ring && write(between(ring.before, ring.here), plain));
    set("after", ring && write(between(ring.here, ring.after), plain));
    set("angle", ring && `${Math.round(angleAt(ring.before, ring.here, ring.after, ring.turn) * 10) / 10}°`);
    set("bow", ring && hand.figure.mayBow ? write(ring.here.bow, plain) : null);
    const others = ring ? ring.all.flatMap(({ name }, n) => (between2(n, ring) ? [] : [[n, name]])) : [];
    const key = others.join();
    if (key !== shown) {
      shown = key;
      to.replaceChildren(...others.map(([n, name]) => new Option(name, n)));
    }
    to.closest("label").hidden = !others.length;
    set("diagonal", others.length && to.value ? write(between(ring.here, ring.all[Number(to.value)]), plain) : null);
  }

  const between2 = (n, ring) => [0, 1, ring.all.length - 1].includes((n - ring.n + ring.all.length) % ring.all.length);

  function note() {
    const input = notes.querySelector("[data-size]");
    const value = read(input.value, plain);
    if (!Number.isFinite(value)) return surface.warn(words.unreadable);
    surface.noted.push(value);
    const slip = document.createElement("button");
    slip.type = "button";
    slip.className = "quiet";
    slip.textContent = `${write(value, plain)} ×`;
    slip.setAttribute("aria-label", `${words.forget} ${write(value, plain)}`);
    slip.addEventListener("click", () => {
      surface.noted.splice(surface.noted.indexOf(value), 1);
      slip.remove();
      input.focus();
    });
    notes.querySelector("[data-noted]").append(slip);
    input.value = "";
    input.focus();
  }

  return { show };
}
