// Big keys under a field that is filled with gloves on: figures, and the units of what is measured.
const DIGITS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "−"];

export function layPads() {
  for (const field of document.querySelectorAll("input[data-pad]")) {
    field.addEventListener("focus", () => show(field));
    // The keys of the device stay away until they are asked for.
    if (matchMedia("(pointer: coarse)").matches) field.inputMode = "none";
  }
}

function show(field) {
  for (const other of document.querySelectorAll(".pad")) if (other.previousElementSibling !== field.parentElement) other.remove();
  if (field.parentElement.nextElementSibling?.matches(".pad")) return;
  const pad = document.createElement("div");
  pad.className = "pad";
  const mark = document.documentElement.lang.startsWith("de") ? "," : ".";
  for (const text of DIGITS) pad.append(key(text.replace(".", mark), () => type(field, text.replace(".", mark))));
  for (const unit of field.dataset.pad.split(" ")) pad.append(key(unit, () => type(field, ` ${unit}`)));
  pad.append(key("⌫", () => rubOut(field)));
  pad.append(key("abc", () => { field.inputMode = "text"; field.blur(); field.focus(); }));
  field.parentElement.after(pad);
  field.select();
}

function key(text, does) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = text;
  made.tabIndex = -1;  // whoever has a keyboard types
  made.addEventListener("pointerdown", (event) => event.preventDefault());  // the field keeps the focus
  made.addEventListener("click", does);
  return made;
}

function type(field, text) {
  field.setRangeText(text, field.selectionStart, field.selectionEnd, "end");
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

function rubOut(field) {
  const { selectionStart: start, selectionEnd: end } = field;
  field.setRangeText("", start === end ? Math.max(start - 1, 0) : start, end, "end");
  field.dispatchEvent(new Event("input", { bubbles: true }));
}
