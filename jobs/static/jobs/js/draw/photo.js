// A photo under the drawing: it stays on this device, is scaled by two taps on a known length and squared by four.
import { homography, placed, similarity } from "./geometry.js";
import { read } from "./lengths.js";
import { make } from "./paper.js";

const STEP = 4; // pixels an arrow key moves the cross
const MOVES = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export function photoUnder(surface) {
  const { box, plain, words, svg } = surface;
  const image = box.querySelector("[data-photo]");
  const tools = box.querySelector("[data-photo-tools]");
  const state = { matrix: null, taps: [], wanted: 0, cross: null, trouble: "" };
  const field = (name) => tools.querySelector(`[data-photo-${name}]`);

  tools.addEventListener("input", (event) => event.stopPropagation());
  tools.addEventListener("change", (event) => {
    event.stopPropagation();
    if (event.target === field("file")) show(event.target.files[0]);
  });
  tools.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches("input:not([type='file'])")) event.preventDefault();
  });
  image.addEventListener("load", () => {
    state.matrix = spread();
    state.trouble = words.noscale;
    image.hidden = false;
    surface.draw();
  });
  image.addEventListener("error", () => {
    image.hidden = true;
    Object.assign(state, { matrix: null, trouble: words.nophoto });
    surface.draw();
  });
  for (const [name, count] of [["scale", 2], ["square", 4]]) {
    field(name).addEventListener("click", () => ask(count));
  }
  field("out").addEventListener("click", () => {
    image.hidden = true;
    image.removeAttribute("src");
    Object.assign(state, { matrix: null, trouble: "", taps: [], wanted: 0 });
    cross(null);
    surface.draw();
  });

  function show(file) {
    if (!file) return;
    if (image.src.startsWith("blob:")) URL.revokeObjectURL(image.src);
    image.src = URL.createObjectURL(file);
  }

  // Until it has a scale the photo fills the paper.
  function spread() {
    const { paper } = surface;
    const size = Math.max(image.naturalWidth / paper.width, image.naturalHeight / paper.height) * paper.scale;
    const left = -paper.x0 / paper.scale;
    return [1 / size, 0, left, 0, -1 / size, paper.y0 / paper.scale, 0, 0, 1];
  }

  const lengths = (count) => (count === 2 ? ["length"] : ["width", "height"]).map((name) => read(field(name).value, plain));

  function ask(count) {
    if (!state.matrix) return surface.warn(words.nophoto);
    if (!lengths(count).every((length) => length > 0)) return surface.warn(count === 2 ? words.needlength : words.needsides);
    Object.assign(state, { wanted: count, taps: [] });
    cross({ x: surface.paper.width / 2, y: surface.paper.height / 2 });
    box.classList.add("tapping");
    svg.setAttribute("tabindex", "0");
    svg.focus();
    say();
  }

  const say = () => surface.warn((state.wanted === 2 ? words.taptwo : words.tapfour).replace("{n}", state.taps.length + 1));

  function cross(at) {
    state.cross = at;
    surface.layers[2].replaceChildren(...(at ? [make("path", { d: `M${at.x - 20},${at.y}h40M${at.x},${at.y - 20}v40`, class: "cross" })] : []),
      ...state.taps.map(({ px }) => make("circle", { cx: px.x, cy: px.y, r: 5, class: "tap" })));
  }

  function tap(px) {
    const { paper } = surface;
    const on = { x: (px.x - paper.x0) / paper.scale, y: (paper.y0 - px.y) / paper.scale };
    state.taps.push({ px, on, photo: placed(inverse(state.matrix), on) });
    cross(px);
    if (state.taps.length < state.wanted) return say();
    settle();
  }

  // Where the taps are on the photo is known; now they are told where they are in the car.
  function settle() {
    const from = state.taps.map(({ photo }) => photo);
    const [first, second] = state.taps.map(({ on }) => on);
    let matrix = null;
    if (state.wanted === 2) {
      const [length] = lengths(2);
      const now = Math.hypot(second.x - first.x, second.y - first.y);
      // As it hangs now, larger or smaller: the first tap stays where it is.
      const end = { x: first.x + ((second.x - first.x) * length) / now, y: first.y + ((second.y - first.y) * length) / now };
      matrix = now ? similarity(from, [first, end]) : null;
    } else {
      const [w, h] = lengths(4);
      matrix = homography(from, [[0, 0], [w, 0], [w, h], [0, h]].map(([x, y]) => ({ x, y })));
    }
    Object.assign(state, { wanted: 0, taps: [] });
    box.classList.remove("tapping");
    svg.removeAttribute("tabindex");
    cross(null);
    if (matrix?.every(Number.isFinite)) Object.assign(state, { matrix, trouble: "" });
    else state.trouble = words.badtaps;
    surface.draw();
    surface.layers[3].children[0]?.focus();
  }

  // The photo in pixels of the paper, by its own matrix and that of the paper.
  function lay() {
    if (!state.matrix) return;
    const { paper, svg: { clientWidth } } = surface;
    const k = clientWidth / paper.width || 1;
    const [a, b, c, d, e, f, g, h, i] = state.matrix;
    const [s, x, y] = [paper.scale * k, paper.x0 * k, paper.y0 * k];
    const m = [s * a + x * g, s * b + x * h, s * c + x * i, y * g - s * d, y * h - s * e, y * i - s * f, g, h, i];
    image.style.transform = `matrix3d(${m[0]},${m[3]},0,${m[6]},${m[1]},${m[4]},0,${m[7]},0,0,1,0,${m[2]},${m[5]},0,${m[8]})`;
  }

  show(field("file").files[0]); // chosen before anything here listened
  return {
    get trouble() {
      return state.wanted ? "" : state.trouble;
    },
    lay,
    takes(event) {
      if (!state.wanted) return false;
      event.preventDefault();
      const { paper } = surface;
      const at = paper.back(event);
      tap({ x: paper.x0 + at.x * paper.scale, y: paper.y0 - at.y * paper.scale });
      return true;
    },
    key(event) {
      if (!state.wanted) return false;
      const move = MOVES[event.key];
      const step = STEP * (event.shiftKey ? 6 : 1);
      if (move) cross({ x: state.cross.x + move[0] * step, y: state.cross.y + move[1] * step });
      else if (event.key === "Enter" || event.key === " ") tap(state.cross);
      else if (event.key === "Escape") {
        Object.assign(state, { wanted: 0, taps: [] });
        box.classList.remove("tapping");
        cross(null);
        surface.warn();
      } else return false;
      event.preventDefault();
      return true;
    },
  };
}

function inverse([a, b, c, d, e, f, g, h, i]) {
  return [e * i - f * h, c * h - b * i, b * f - c * e, f * g - d * i, a * i - c * g, c * d - a * f, d * h - e * g, b * g - a * h, a * e - b * d];
}
