// A mark is put on the outline of the car with a finger; the list of places beside it says the same.
const SVG = "http://www.w3.org/2000/svg";

export function putPins() {
  for (const bench of document.querySelectorAll("[data-pins]")) attach(bench);
}

function attach(bench) {
  const drawing = bench.querySelector("svg"), form = document.getElementById(bench.dataset.pins);
  const [place, x, y] = ["place", "x", "y"].map((name) => form.elements[name]);
  const spots = JSON.parse(bench.dataset.spots), { width, height } = drawing.viewBox.baseVal;
  const pin = drawing.appendChild(document.createElementNS(SVG, "circle"));
  for (const [name, value] of Object.entries({ r: 26, class: "pin-new", fill: "none" })) pin.setAttribute(name, value);

  const show = () => {
    pin.setAttribute("visibility", x.value ? "visible" : "hidden");
    pin.setAttribute("cx", x.value * width);
    pin.setAttribute("cy", y.value * height);
  };
  const put = (at) => {
    [x.value, y.value] = at || ["", ""];
    show();
  };
  drawing.addEventListener("click", (event) => {
    const frame = drawing.getBoundingClientRect();
    const at = [(event.clientX - frame.left) / frame.width, (event.clientY - frame.top) / frame.height];
    const away = ([left, top]) => Math.hypot((left - at[0]) * width, (top - at[1]) * height);
    place.value = Object.keys(spots).reduce((near, name) => (away(spots[name]) < away(spots[near]) ? name : near));
    put(at.map((share) => share.toFixed(4)));
    // What it is comes next; the drawing stays in sight on a wide screen.
    form.elements.kind.focus({ preventScroll: window.innerWidth > 700 });
  });
  place.addEventListener("change", () => put(spots[place.value]));
  show();
}
