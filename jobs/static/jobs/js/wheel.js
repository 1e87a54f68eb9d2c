// Turn a typed number: arrow keys in the field, or a drag on the wheel beside it. Units stay as typed.
const NUMBER = /[-+]?\d+(?:([.,])\d+)?/;

export function turnWheels() {
  document.addEventListener("keydown", (event) => {
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    const field = event.target;
    if (!field.id || !document.querySelector(`[data-wheel="${CSS.escape(field.id)}"]`)) return;
    event.preventDefault();
    turn(field, (event.key === "ArrowUp" ? 1 : -1) * (event.shiftKey ? 10 : 1));
  });

  document.addEventListener("pointerdown", (event) => {
    const wheel = event.target.closest("[data-wheel]");
    const field = wheel && document.getElementById(wheel.dataset.wheel);
    if (!field) return;
    event.preventDefault();
    wheel.setPointerCapture(event.pointerId);
    let last = event.clientX;
    const move = (next) => {
      const steps = Math.trunc((next.clientX - last) / 6);
      if (!steps) return;
      last += steps * 6;
      turn(field, steps);
    };
    wheel.addEventListener("pointermove", move);
    const end = () => wheel.removeEventListener("pointermove", move);
    wheel.addEventListener("pointerup", end, { once: true });
    wheel.addEventListener("pointercancel", end, { once: true });
  });
}

// One step is about a hundredth of the figure, kept to a round 1, 2 or 5 of its decade.
function turn(field, steps) {
  const found = NUMBER.exec(field.value);
  // Feet and inches hold two numbers: which one was meant is the person's to say.
  if (!found || /\d/.test(field.value.slice(found.index + found[0].length))) return;
  const comma = found[1] === ",";
  const value = parseFloat(found[0].replace(",", "."));
  const rough = Math.abs(value) / 100 || 0.1;
  const decade = 10 ** Math.floor(Math.log10(rough));
  const step = decade * [1, 2, 5, 10].find((lead) => rough <= decade * lead * 1.0001);
  const next = Math.round(value / step + steps) * step;
  const places = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  let text = next.toFixed(Math.min(6, places));
  if (comma) text = text.replace(".", ",");
  field.value = field.value.slice(0, found.index) + text + field.value.slice(found.index + found[0].length);
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
