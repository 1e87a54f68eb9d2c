// Undo and redo in an instrument: a step is one field's change since the form was opened.
import { fields, read, write } from "./typing.js";

const TYPED = "input:not([type='checkbox'], [type='radio']), textarea";

export function watchUndo() {
  for (const form of document.querySelectorAll("form[data-undo]")) attach(form);
}

const state = (form) => fields(form).map(read);
const changed = (one, other) => one.flatMap((value, place) => (value === other[place] ? [] : [place]));

function attach(form) {
  const said = form.querySelector("[data-step-says]");
  const buttons = [...form.querySelectorAll("[data-step]")];
  const past = [];
  const future = [];
  let now = state(form);
  // The field whose change is still going on; "keys" when the browser can take its letters back itself.
  let going = null;

  function show() {
    for (const button of buttons) {
      const any = (button.dataset.step === "back" ? past : future).length;
      if (any) button.removeAttribute("aria-disabled");
      else button.setAttribute("aria-disabled", "true");
    }
  }

  form.addEventListener("input", (event) => {
    const next = state(form);
    const places = changed(now, next);
    if (!places.length) return;
    said.textContent = "";
    const same = going && places.length === 1 && places[0] === going.place;
    if (!same) past.push(now);
    now = next;
    future.length = 0;
    going = places.length === 1 ? { place: places[0], keys: event.isTrusted && (!same || going.keys) } : null;
    if (!changed(past.at(-1), now).length) {
      past.pop();
      going = null;
    }
    show();
  });
  // Leaving a field, choosing and letting go of the wheel each end a step.
  for (const end of ["focusout", "change", "pointerup"]) form.addEventListener(end, () => { going = null; });

  function step(from, to) {
    if (!from.length) return;
    to.push(now);
    const was = now;
    now = from.pop();
    going = null;
    const all = fields(form);
    const places = changed(was, now);
    for (const place of places) write(all[place], now[place]);
    // Results, draft and hidden groups follow as if it had been typed.
    const first = all[places[0]];
    first.dispatchEvent(new Event("input", { bubbles: true }));
    if (!first.matches(TYPED)) first.dispatchEvent(new Event("change", { bubbles: true }));
    first.scrollIntoView({ block: "nearest" });
    said.textContent = places.length === 1 ? `${name(first)}: ${spoken(first)}` : "";
    show();
  }
  const back = () => step(past, future);
  const again = () => step(future, past);

  for (const button of buttons) button.addEventListener("click", button.dataset.step === "back" ? back : again);
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const redo = key === "y" || (key === "z" && event.shiftKey);
    if (key !== "z" && key !== "y") return;
    const other = event.target.closest("form");
    // While letters are being typed into a field the browser takes them back one by one.
    if ((other && other !== form) || (going?.keys && event.target.matches(TYPED))) return;
    event.preventDefault();
    (redo ? again : back)();
  });
  show();
}

function name(field) {
  const label = field.labels?.[0];
  return (label?.firstChild?.textContent || field.name).trim();
}

function spoken(field) {
  if (/checkbox|radio/.test(field.type)) return field.checked ? "✓" : "–";
  return (field.selectedOptions ? field.selectedOptions[0]?.text : field.value) || "–";
}
