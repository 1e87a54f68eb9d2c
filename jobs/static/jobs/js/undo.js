// Undo and redo in an instrument: a step is one field's change since the form was opened.
import { fitRows } from "./rows.js";
import { fields, values, write } from "./typing.js";

const TYPED = "input:not([type='checkbox'], [type='radio']), textarea";

export function watchUndo() {
  for (const form of document.querySelectorAll("form[data-undo]")) attach(form);
}

// Places that differ; a row more or less moves what stands after it, which is one change too.
const changed = (one, other) => one.flatMap(([name, value], place) => (name === other[place]?.[0] && value === other[place][1] ? [] : [place]));
const differ = (one, other) => one.length !== other.length || changed(one, other).length > 0;

function attach(form) {
  const said = form.querySelector("[data-step-says]");
  const buttons = [...form.querySelectorAll("[data-step]")];
  const past = [];
  const future = [];
  let now = values(form);
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
    const next = values(form);
    if (!differ(now, next)) return;
    const places = changed(now, next);
    const single = places.length === 1 && now.length === next.length;
    // What is drawn in one go changes several figures and is one step.
    const { hand } = form.dataset;
    said.textContent = "";
    const same = going && (hand ? going.hand === hand : single && places[0] === going.place);
    if (!same) past.push(now);
    now = next;
    future.length = 0;
    going = single || hand ? { hand, place: places[0], keys: event.isTrusted && (!same || going.keys) } : null;
    if (!differ(past.at(-1), now)) {
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
    fitRows(form, now);
    const all = fields(form);
    const places = changed(now, was);
    for (const place of places) write(all[place], now[place][1]);
    // Results, draft and hidden groups follow as if it had been typed.
    const first = all[places[0] ?? 0];
    first.dispatchEvent(new Event("input", { bubbles: true }));
    if (!first.matches(TYPED)) first.dispatchEvent(new Event("change", { bubbles: true }));
    for (let fold = first.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
    first.scrollIntoView({ block: "nearest" });
    said.textContent = places.length === 1 && was.length === now.length ? `${name(first)}: ${spoken(first)}` : "";
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
  return (label?.firstChild?.textContent || field.getAttribute("aria-label") || field.name).trim();
}

function spoken(field) {
  if (/checkbox|radio/.test(field.type)) return field.checked ? "✓" : "–";
  return (field.selectedOptions ? field.selectedOptions[0]?.text : field.value) || "–";
}
