// Plain geometry of points { x, y }, x to the right and y up, in millimetres.
export const between = (a, b) => Math.hypot(b.x - a.x, b.y - a.y);
export const degrees = (radians) => (radians * 180) / Math.PI;

// The inner angle at b of an outline that passes a, b, c, counter-clockwise when `turn` is 1.
export function angleAt(a, b, c, turn) {
  const to = Math.atan2(c.y - b.y, c.x - b.x);
  const from = Math.atan2(a.y - b.y, a.x - b.x);
  const angle = turn > 0 ? from - to : to - from;
  return degrees((angle + 4 * Math.PI) % (2 * Math.PI));
}

export function twiceArea(points) {
  return points.reduce((sum, here, n) => {
    const there = points[(n + 1) % points.length];
    return sum + here.x * there.y - there.x * here.y;
  }, 0);
}

// Whether two corners that follow each other lie in one place.
export const twins = (points) => points.some((here, n) => points.length > 1 && between(here, points[(n + 1) % points.length]) < 0.01);

// The two edges of an outline that cross each other, or null.
export function crossing(points) {
  const count = points.length;
  for (let i = 0; i < count; i += 1) {
    for (let j = i + 2; j < count; j += 1) {
      if (i === 0 && j === count - 1) continue;
      if (cross(points[i], points[i + 1], points[j], points[(j + 1) % count])) return [i, j];
    }
  }
  return null;
}

function cross(a, b, c, d) {
  const side = (p, q, r) => Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

// Where two circles meet, nearest to where the corner is now; null where they do not.
export function meeting(a, toA, b, toB, near) {
  const apart = between(a, b);
  if (!apart || apart > toA + toB || apart < Math.abs(toA - toB)) return null;
  const along = (toA ** 2 - toB ** 2 + apart ** 2) / (2 * apart);
  const off = Math.sqrt(Math.max(toA ** 2 - along ** 2, 0));
  const u = { x: (b.x - a.x) / apart, y: (b.y - a.y) / apart };
  const places = [1, -1].map((side) => ({
    x: a.x + along * u.x - side * off * u.y,
    y: a.y + along * u.y + side * off * u.x,
  }));
  return between(places[0], near) <= between(places[1], near) ? places[0] : places[1];
}

// The radius of an edge that bows, for a path; and whether it bows to the right of its way.
export function arc(a, b, bow, turn) {
  const chord = between(a, b);
  return { radius: (chord ** 2 / 4 + bow ** 2) / (2 * Math.abs(bow)), right: bow * turn > 0 };
}

// The 3 × 3 matrix that lays four points of a picture on four points of the paper.
export function homography(from, to) {
  const rows = [];
  from.forEach(({ x, y }, n) => {
    rows.push([x, y, 1, 0, 0, 0, -to[n].x * x, -to[n].x * y, to[n].x]);
    rows.push([0, 0, 0, x, y, 1, -to[n].y * x, -to[n].y * y, to[n].y]);
  });
  const solved = solve(rows);
  return solved && [...solved, 1];
}

// The same for two points: turned and enlarged, nothing squared.
export function similarity([a, b], [c, d]) {
  const size = between(a, b) ** 2;
  if (!size) return null;
  const [u, v, p, q] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  // A picture counts downwards, paper upwards: it is turned over first.
  const cos = (p * u - q * v) / size;
  const sin = (q * u + p * v) / size;
  return [cos, sin, c.x - cos * a.x - sin * a.y, sin, -cos, c.y - sin * a.x + cos * a.y, 0, 0, 1];
}

export function placed(matrix, { x, y }) {
  const [a, b, c, d, e, f, g, h, i] = matrix;
  const w = g * x + h * y + i;
  return { x: (a * x + b * y + c) / w, y: (d * x + e * y + f) / w };
}

function solve(rows) {
  const count = rows.length;
  for (let n = 0; n < count; n += 1) {
    const best = rows.reduce((top, row, at) => (at >= n && Math.abs(row[n]) > Math.abs(rows[top][n]) ? at : top), n);
    if (Math.abs(rows[best][n]) < 1e-12) return null;
    [rows[n], rows[best]] = [rows[best], rows[n]];
    for (let other = 0; other < count; other += 1) {
      if (other === n) continue;
      const share = rows[other][n] / rows[n][n];
      for (let at = n; at <= count; at += 1) rows[other][at] -= share * rows[n][at];
    }
  }
  return rows.map((row, n) => row[count] / row[n]);
}
