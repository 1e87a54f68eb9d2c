// A cavity as it is measured: stations along a straight edge and how far it is from there to the other side.
import { read } from "./lengths.js";

const FIRST = 4;

export function stations(surface) {
  const part = surface.box.querySelector("[data-stations]");
  if (!part) return;
  const body = part.querySelector("tbody");
  part.addEventListener("input", (event) => event.stopPropagation());
  part.addEventListener("change", (event) => event.stopPropagation());
  part.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches("input")) event.preventDefault();
  });
  const row = body.firstElementChild;
  for (let n = 1; n < FIRST; n += 1) add();

  function add() {
    const added = row.cloneNode(true);
    for (const input of added.querySelectorAll("input")) input.value = "";
    body.append(added);
    [...body.children].forEach((one, n) => {
      for (const input of one.querySelectorAll("input")) input.setAttribute("aria-label", `${input.dataset.label} ${n + 1}`);
    });
    return added;
  }

  part.querySelector("[data-station-add]").addEventListener("click", () => add().querySelector("input").focus());
  part.querySelector("[data-station-draw]").addEventListener("click", () => {
    const pairs = [...body.children]
      .map((one) => [...one.querySelectorAll("input")].map((input) => read(input.value, surface.plain)))
      .filter(([at, reach]) => at !== null || reach !== null);
    const says = part.querySelector("[data-station-says]");
    if (pairs.length < 2 || pairs.some((pair) => !pair.every(Number.isFinite))) {
      says.textContent = surface.words.stations;
      return;
    }
    says.textContent = "";
    pairs.sort(([a], [b]) => a - b);
    const standing = part.querySelector("[data-station-way]").value === "standing";
    const [near, far] = [pairs[0][0], pairs.at(-1)[0]];
    // Along the edge and back over the ends of what was measured; upright, the edge is the front.
    const lying = [[near, 0], [far, 0], ...pairs.toReversed().filter(([, reach]) => reach > 0)];
    const points = standing ? [[0, near], ...pairs.filter(([, reach]) => reach > 0).map(([at, reach]) => [reach, at]), [0, far]] : lying;
    const outline = surface.drawn[0];
    surface.change(() => outline.begin(points), outline);
    surface.again();
    surface.choose(0);
  });
}
