// What can be drawn: each figure reads its fields, says its corners, and writes a moved one back.
// A corner is { x, y, name, put(x, y) }; `joins` are the lines between, with what each measures.
import { cellOf, freeRow, rowAfter, rowOut, rowsOf, tell, typedRows } from "../rows.js";
import { read, write } from "./lengths.js";

const value = (field, plain) => (field ? read(field.value, plain) : null);

// What stays where it is keeps the words it was typed in.
function put(field, millimetres, plain, now = read(field.value, plain)) {
  if (!(Math.abs(now - millimetres) < 1e-6) || now === null) field.value = write(millimetres, plain);
}

const known = (...figures) => figures.every((figure) => Number.isFinite(figure));

// An outline: a row for each corner.
export class Outline {
  constructor(box, plain, words) {
    Object.assign(this, { box, plain, words, kind: "outline", closed: true });
  }

  get rows() {
    return typedRows(this.box);
  }

  get unread() {
    return this.rows.filter((row) => !this.at(row)).length;
  }

  at(row) {
    const [x, y] = ["x", "y"].map((name) => value(cellOf(row, name), this.plain));
    return known(x, y) ? { x, y, bow: value(cellOf(row, "bow"), this.plain) || 0 } : null;
  }

  get corners() {
    return this.rows.flatMap((row, n) => {
      const at = this.at(row);
      return at ? [{ ...at, row, name: `${this.words.corner} ${n + 1}`, put: (x, y) => this.move(row, x, y) }] : [];
    });
  }

  move(row, x, y) {
    put(cellOf(row, "x"), x, this.plain);
    put(cellOf(row, "y"), y, this.plain);
  }

  bow(row, millimetres) {
    const cell = cellOf(row, "bow");
    if (!cell) return;
    if (millimetres) put(cell, millimetres, this.plain);
    else cell.value = "";
  }

  get mayBow() {
    return Boolean(cellOf(rowsOf(this.box)[0], "bow"));
  }

  // A new corner in the middle of the edge after one; the first three make a triangle to begin with.
  insert(corner) {
    const corners = this.corners;
    if (corners.length < 3) return this.begin([[0, 0], [400, 0], [400, 300], [0, 300]]);
    const next = corners[(corners.findIndex(({ row: one }) => one === corner.row) + 1) % corners.length];
    const row = rowAfter(this.box, corner.row);
    if (!row) return;
    this.move(row, (corner.x + next.x) / 2, (corner.y + next.y) / 2);
  }

  remove(corner) {
    if (this.corners.length > 3) rowOut(this.box, corner.row);
  }

  // Replaces every corner.
  begin(points) {
    for (const row of this.rows) rowOut(this.box, row);
    let row = rowsOf(this.box)[0];
    points.forEach(([x, y], n) => {
      if (n) row = rowAfter(this.box, row) || row;
      this.move(row, x, y);
    });
  }

  tell() {
    tell(this.box);
  }
}

// Blocks that stand in the way: the near lower corner moves one, the far upper one makes it larger.
export class Blocks {
  constructor(box, plain, words) {
    Object.assign(this, { box, plain, words, kind: "blocks" });
  }

  get shapes() {
    return typedRows(this.box).flatMap((row) => {
      const [x, y, w, h] = ["x", "y", "depth", "height"].map((name) => value(cellOf(row, name), this.plain));
      return known(x, y, w, h) ? [{ row, x, y, w, h, name: cellOf(row, "name").value }] : [];
    });
  }

  get corners() {
    return this.shapes.flatMap(({ row, x, y, w, h, name }) => [
      { x, y, row, name: `${name}, ${this.words.place}`, put: (px, py) => this.set(row, { x: px, y: py }) },
      {
        x: x + w, y: y + h, row, name: `${name}, ${this.words.size}`,
        put: (px, py) => this.set(row, { depth: Math.max(px - x, 1), height: Math.max(py - y, 1) }),
      },
    ]);
  }

  set(row, figures) {
    for (const [name, millimetres] of Object.entries(figures)) put(cellOf(row, name), millimetres, this.plain);
  }

  insert(_corner, { x, y }) {
    const row = freeRow(this.box);
    if (!row) return;
    cellOf(row, "name").value = `${this.words.block} ${this.shapes.length + 1}`;
    this.set(row, { x, y, depth: 100, height: 100 });
  }

  remove(corner) {
    rowOut(this.box, corner.row);
  }

  tell() {
    tell(this.box);
  }
}

// Openings: the middle moves one, a point on its rim makes it larger.
export class Openings {
  constructor(box, plain, words) {
    Object.assign(this, { box, plain, words, kind: "openings" });
  }

  get shapes() {
    return typedRows(this.box).flatMap((row, n) => {
      const [x, y, w, h] = ["u", "v", "width", "height"].map((name) => value(cellOf(row, name), this.plain));
      return known(x, y, w) ? [{ row, x, y, w, h, name: `${this.words.opening} ${n + 1}` }] : [];
    });
  }

  get corners() {
    return this.shapes.flatMap(({ row, x, y, w, h, name }) => [
      {
        x, y, row, name,
        put: (px, py) => {
          put(cellOf(row, "u"), px, this.plain);
          put(cellOf(row, "v"), py, this.plain);
        },
      },
      {
        x: x + w / 2, y: y + (h ? h / 2 : 0), row, name: `${name}, ${this.words.size}`,
        put: (px, py) => {
          put(cellOf(row, "width"), Math.max(2 * Math.abs(px - x), 2), this.plain);
          if (h) put(cellOf(row, "height"), Math.max(2 * Math.abs(py - y), 2), this.plain);
        },
      },
    ]);
  }

  insert(_corner, { x, y }) {
    const row = freeRow(this.box);
    if (!row) return;
    put(cellOf(row, "u"), x, this.plain);
    put(cellOf(row, "v"), y, this.plain);
    put(cellOf(row, "width"), 60, this.plain);
  }

  remove(corner) {
    rowOut(this.box, corner.row);
  }

  tell() {
    tell(this.box);
  }
}

// What sits in a face: a middle typed into two fields; left empty, where the server put it.
export class Spots {
  constructor(form, plain, items) {
    Object.assign(this, { form, plain, items, kind: "spots" });
  }

  get shapes() {
    return this.items.map((item) => {
      const [u, v] = [item.u, item.v].map((name) => value(this.form.elements[name], this.plain));
      return { ...item, x: known(u) ? u : item.x, y: known(v) ? v : item.y };
    });
  }

  get corners() {
    return this.shapes
      .filter((item) => item.u)
      .map((item) => ({
        x: item.x, y: item.y, name: item.name,
        put: (x, y) => {
          // A part is placed by both or by none: what it was given by itself is now said.
          this.last = this.form.elements[item.u];
          put(this.last, x, this.plain);
          put(this.form.elements[item.v], y, this.plain);
        },
      }));
  }

  tell() {
    (this.last || this.form).dispatchEvent(new Event("input", { bubbles: true }));
  }
}
