// The drawing surface: what a form holds as figures, drawn; corners are moved by hand, by arrow keys or by typing.
// Everything it does it does to the fields, so that undo, drafts and what is worked out follow by themselves.
import { Body, Plate } from "./bodies.js";
import { Blocks, Openings, Outline, Spots } from "./figures.js";
import { crossing, twins } from "./geometry.js";
import { grain, write } from "./lengths.js";
import { make, Paper } from "./paper.js";
import { snapped } from "./snap.js";
import { stations } from "./stations.js";
import { strokes } from "./strokes.js";
import { typedSizes } from "./typed.js";

const NO_PHOTO = { trouble: "", lay() {}, takes: () => false, key: () => false };

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const LISTS = { blocks: Blocks, openings: Openings };
const SIZES = ["x", "y", "w", "h", "width", "height"];
let gestures = 0;

export function drawSurfaces(root) {
  for (const box of root.querySelectorAll("[data-surface]")) if (!box.dataset.ready) new Surface(box);
}

class Surface {
  constructor(box) {
    this.box = box;
    box.dataset.ready = "yes";
    this.form = box.closest("form");
    this.plain = box.dataset.unit;
    this.words = JSON.parse(box.dataset.words);
    this.svg = box.querySelector("svg");
    this.says = box.querySelector("[data-surface-says]");
    this.paper = new Paper(this.svg);
    this.chosen = 0;
    this.layers = ["ground", "lines", "guides", "holds"].map((name) => this.svg.appendChild(make("g", { class: name })));
    this.noted = [];
    this.photo = NO_PHOTO;
    this.sizes = typedSizes(this);
    stations(this);
    this.listen();
    this.awaitPhoto();
    this.offer();
    this.lay();
  }

  // Few lay a photo under a drawing: what it takes is fetched when its tools are first touched.
  awaitPhoto() {
    const tools = this.box.querySelector("[data-photo-tools]");
    const fetched = async ({ target }) => {
      const { photoUnder } = await import("./photo.js");
      if (this.photo !== NO_PHOTO) return;
      this.photo = photoUnder(this);
      target.closest("button")?.click();
    };
    for (const kind of ["click", "change"]) tools?.addEventListener(kind, fetched, { once: true });
  }

  // What is drawn: figures in hand, and behind them what only shows. The bench has a view of each face.
  get figures() {
    const { dataset } = this.box;
    const list = (name) => this.form.querySelector(`[data-rows="${name}"]`);
    if (dataset.surface === "list") {
      const others = [...this.form.querySelectorAll(`[data-on="${dataset.of}"]`)].map((box) => new LISTS[box.dataset.draws](box, this.plain, this.words));
      const outline = new Outline(list(dataset.of), this.plain, this.words);
      const plate = dataset.plate && !outline.rows.length ? new Plate(this.form, this.plain, this.words, dataset.plate.split(" ")) : outline;
      return [plate, ...others];
    }
    const { faces, place } = this.known;
    const face = faces.find(({ key }) => key === this.view);
    if (face) return [still(face), new Spots(this.form, this.plain, face.items)];
    const own = this.form.elements.shape.value === "profile";
    const body = own ? new Outline(list("profile"), this.plain, this.words) : new Body(this.form, this.plain, this.words);
    return [body, ...behind(new Outline(list("cavity_profile"), this.plain, this.words), place)];
  }

  get view() {
    return this.box.querySelector("[data-view]:checked")?.value || "side";
  }

  // What was worked out last: the faces with what sits in them, where the box stands, what is taken for an empty field.
  get known() {
    const { faces = [], place = [0, 0], taken = {} } = JSON.parse(document.querySelector("[data-bench]")?.dataset.bench || "{}");
    // The server counts in metres, the paper in millimetres.
    const large = (item) => ({ ...item, ...Object.fromEntries(SIZES.filter((name) => item[name] != null).map((name) => [name, item[name] * 1000])) });
    return { faces: faces.map((face) => ({ ...large(face), items: face.items.map(large) })), place: place.map((at) => at * 1000), taken };
  }

  // A choice for each face with something in it; an empty field shows what is taken instead.
  offer() {
    const views = this.box.querySelector("[data-surface-views]");
    if (!views) return;
    const { faces, taken } = this.known;
    const key = faces.map((face) => face.label).join();
    if (key !== this.offered && !views.contains(document.activeElement)) {
      this.offered = key;
      const chosen = this.view;
      for (const old of [...views.children].slice(1)) old.remove();
      for (const face of faces) {
        const label = views.firstElementChild.cloneNode(true);
        Object.assign(label.querySelector("input"), { value: face.key, checked: face.key === chosen });
        label.querySelector("span").textContent = face.label;
        views.append(label);
      }
      if (!views.querySelector(":checked")) views.querySelector("input").checked = true;
    }
    // One stop of the Tab key, as a browser has it: the others by arrow keys.
    for (const view of views.querySelectorAll("input")) view.tabIndex = view.checked ? 0 : -1;
    for (const [name, text] of Object.entries(taken)) {
      const field = this.form.elements[name];
      if (field && field.placeholder !== text) field.placeholder = text;
    }
  }

  get held() {
    return this.drawn.flatMap((figure) => figure.corners.filter((corner) => !corner.still).map((corner) => ({ figure, corner })));
  }

  get hand() {
    return this.held[Math.min(this.chosen, this.held.length - 1)];
  }

  lay() {
    this.drawn = this.figures;
    this.paper.frame(this.drawn.flatMap(extent));
    this.draw();
  }

  draw() {
    this.drawn = this.figures;
    this.sketched = sketch(this.drawn);
    const { held, hand, paper, plain } = this;
    const [ground, lines, , holds] = this.layers;
    ground.replaceChildren(...paper.ground(plain));
    lines.replaceChildren(...this.drawn.flatMap((figure) => strokes(figure, paper, plain, hand?.figure === figure ? hand.corner : null, figure.behind)));
    while (holds.children.length > held.length) holds.lastChild.remove();
    while (holds.children.length < held.length) holds.append(hold());
    held.forEach(({ corner }, n) => {
      const knob = holds.children[n];
      const { x, y } = paper.at(corner);
      knob.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
      knob.setAttribute("aria-label", `${corner.name}: ${this.words.across} ${write(corner.x, plain)}, ${this.words.up} ${write(corner.y, plain)}`);
      knob.setAttribute("tabindex", n === Math.min(this.chosen, held.length - 1) ? "0" : "-1");
      knob.classList.toggle("chosen", n === this.chosen);
    });
    // The corners of a shape that follows from its measures are as many as they are.
    const corners = this.drawn.some((figure) => figure.insert || figure.fields);
    for (const act of this.box.querySelectorAll("[data-act='insert'], [data-act='remove']")) act.hidden = !corners;
    this.photo.lay();
    this.sizes.show();
    this.warn();
  }

  // What is wrong with the drawing is said while it lasts; a hint in between.
  warn(hint = "") {
    const outline = this.drawn.find((figure) => figure.closed && !figure.behind);
    const crossed = outline && crossing(outline.corners);
    const unread = outline?.unread;
    const twinned = outline && twins(outline.corners);
    const trouble = crossed ? this.words.crosses : unread ? this.words.unread : twinned ? this.words.twins : "";
    const hints = this.box.dataset.surface === "list" ? {} : { plan: this.words.above, moulded: this.words.moulded };
    const empty = hints[this.form.elements.shape?.value] || this.words.empty;
    const text = trouble || hint || this.photo.trouble || (this.held.length ? "" : empty);
    if (this.says.textContent !== text) this.says.textContent = text;
    this.box.classList.toggle("troubled", Boolean(crossed));
  }

  choose(n, { focus = true } = {}) {
    this.chosen = (n + this.held.length) % this.held.length || 0;
    this.draw();
    if (focus) this.layers[3].children[this.chosen]?.focus();
  }

  // Changes figures, and lets the form know once for a picture.
  change(work, figure = this.hand?.figure) {
    work();
    this.busy = true;
    this.draw();
    this.busy = false;
    this.told ||= requestAnimationFrame(() => {
      this.told = null;
      this.own = true;
      figure.tell();
      this.own = false;
    });
  }

  listen() {
    const { svg, form, box } = this;
    svg.addEventListener("pointerdown", (event) => this.grab(event));
    svg.addEventListener("focusin", (event) => {
      const n = [...this.layers[3].children].indexOf(event.target.closest(".hold"));
      if (n >= 0 && n !== this.chosen) this.choose(n, { focus: false });
    });
    svg.addEventListener("keydown", (event) => this.key(event));
    box.addEventListener("click", (event) => {
      const act = event.target.closest("[data-act]")?.dataset.act;
      if (act) this.act(act);
    });
    box.addEventListener("change", (event) => event.target.matches("[data-view]") && this.again());
    form.addEventListener("input", () => !this.own && this.follow());
    form.addEventListener("change", (event) => event.target.matches("select") && this.again());
    document.addEventListener("htmx:afterSwap", () => {
      if (!box.isConnected) return;
      this.offer();
      if (!form.dataset.hand) this.draw();
    });
    new ResizeObserver(() => svg.clientWidth && this.lay()).observe(svg);
  }

  // What was typed elsewhere is drawn with the next picture, if it is drawn at all: a browser that is in the middle
  // of somebody's letters is left alone.
  follow() {
    this.following ||= requestAnimationFrame(() => {
      this.following = null;
      if (sketch(this.figures) !== this.sketched) this.lay();
    });
  }

  again() {
    this.chosen = 0;
    this.offer();
    this.lay();
  }

  grab(event) {
    if (this.photo.takes(event)) return;
    const knob = event.target.closest(".hold");
    if (!knob || event.button) return;
    event.preventDefault();
    this.choose([...this.layers[3].children].indexOf(knob));
    const { hand } = this;
    const from = this.paper.back(event);
    const off = { x: hand.corner.x - from.x, y: hand.corner.y - from.y };
    gestures += 1;
    this.form.dataset.hand = gestures;
    svgCapture(knob, event);
    const move = (next) => {
      const at = this.paper.back(next);
      const place = snapped(this, { x: at.x + off.x, y: at.y + off.y });
      this.change(() => this.hand.corner.put(place.x, place.y));
      this.layers[2].replaceChildren(...place.guides);
    };
    const end = () => {
      knob.removeEventListener("pointermove", move);
      delete this.form.dataset.hand;
      this.layers[2].replaceChildren();
      // The paper stays where it is under the hand, and is laid anew when the hand lets go.
      if (!this.drawn.flatMap(extent).every((point) => this.paper.holds(point))) this.lay();
    };
    knob.addEventListener("pointermove", move);
    for (const name of ["pointerup", "pointercancel"]) knob.addEventListener(name, end, { once: true });
  }

  key(event) {
    if (this.photo.key(event)) return;
    const { hand } = this;
    if (!hand || event.ctrlKey || event.metaKey) return;
    const arrow = ARROWS[event.key];
    if (arrow) {
      const step = grain(this.plain) * (event.shiftKey ? 10 : 1);
      const [x, y] = [hand.corner.x + arrow[0] * step, hand.corner.y + arrow[1] * step];
      this.change(() => hand.corner.put(x, y));
      if (!this.paper.holds({ x, y })) this.lay();
    } else if (event.key === "PageDown") this.choose(this.chosen + 1);
    else if (event.key === "PageUp") this.choose(this.chosen - 1);
    else if (event.key === "Insert" || event.key === "+") this.act("insert");
    else if (event.key === "Delete") this.act("remove");
    else return;
    event.preventDefault();
  }

  act(what) {
    const first = this.drawn[0];
    const figure = this.hand?.figure || first;
    if (what === "next" || what === "before") this.choose(this.chosen + (what === "next" ? 1 : -1));
    if (what === "lay") this.lay();
    if (what === "insert" && first.fields) this.begin();
    else if (what === "insert" && first.insert) {
      const corner = figure === first ? this.hand?.corner : first.corners[0];
      this.change(() => first.insert(corner), first);
      this.choose(first.corners.length > 4 && corner ? this.chosen + 1 : 0);
    }
    if (what === "remove" && figure.remove) {
      this.change(() => figure.remove(this.hand.corner), figure);
      this.lay();
      this.layers[3].children[Math.min(this.chosen, this.held.length - 1)]?.focus();
    }
    const list = this.drawn.find(({ kind }) => kind === what);
    if (list) {
      const middle = this.paper.back({ clientX: center(this.svg).x, clientY: center(this.svg).y });
      const round = (figure) => Math.round(figure / grain(this.plain)) * grain(this.plain);
      this.change(() => list.insert(null, { x: round(middle.x), y: round(middle.y) }), list);
      this.choose(this.held.map(({ figure: one }) => one === list).lastIndexOf(true) - 1);
    }
  }

  // A rectangle becomes an outline with corners of its own.
  begin() {
    const outline = new Outline(this.form.querySelector(`[data-rows="${this.box.dataset.of}"]`), this.plain, this.words);
    const corners = this.drawn[0].corners.map(({ x, y }) => [x, y]);
    this.change(() => outline.begin(corners.length > 2 ? corners : [[0, 0], [400, 0], [400, 300], [0, 300]]), outline);
    this.lay();
    this.choose(0);
  }
}

// Everything figures say of themselves, to tell whether anything moved.
function sketch(figures) {
  const parts = figures.map(({ corners, shapes, unread }) => [corners, shapes, unread]);
  return JSON.stringify(parts, (key, value) => (key === "row" ? undefined : value));
}

// The cavity around a box, as it lies in the box's own coordinates; it only shows.
function behind(outline, [x, y]) {
  const corners = outline.corners.map((corner) => ({ ...corner, x: corner.x - x, y: corner.y - y, still: true }));
  return corners.length > 2 ? [{ kind: "cavity", closed: true, behind: true, corners }] : [];
}

const still = ({ width, height }) => ({
  closed: true, kind: "face",
  corners: [[0, 0], [width, 0], [width, height], [0, height]].map(([x, y], n) => ({ x, y, bow: 0, still: true, name: `${n}` })),
});

function extent(figure) {
  const reach = (figure.shapes || []).flatMap(({ x, y, w = 0, h }) => [{ x: x - w / 2, y: y - (h || w) / 2 }, { x: x + w / 2, y: y + (h || w) / 2 }]);
  return [...figure.corners, ...(figure.kind === "blocks" ? [] : reach)];
}

function center(node) {
  const box = node.getBoundingClientRect();
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
}

function svgCapture(knob, event) {
  try {
    knob.setPointerCapture(event.pointerId);
  } catch {
    // a pointer that is gone already
  }
}

// Large enough for a thumb; what is seen of it is a small square, as a pencil marks a point.
function hold() {
  const knob = make("g", { class: "hold", role: "button" });
  knob.append(make("circle", { r: 22, class: "reach" }), make("path", { d: "M-5-5h10v10h-10z", class: "dot" }));
  return knob;
}
