// Every page loads this one; each module looks for what it serves and leaves the rest alone.
import { watchBusy } from "./busy.js";
import { layPads } from "./pad.js";
import { readCharts } from "./chart.js";
import { keepFocus } from "./focus.js";
import { showOnly } from "./only.js";
import { pickParts } from "./pick.js";
import { awaitPrint } from "./print.js";
import { orderRoutes } from "./route.js";
import { typeRows } from "./rows.js";
import { sendOnce } from "./once.js";
import { watchSignOut } from "./sign_out.js";
import { takeFigures } from "./take.js";
import { keepTyping } from "./typing.js";
import { watchUndo } from "./undo.js";
import { turnWheels } from "./wheel.js";

const EDITABLE = "input, textarea, select, [contenteditable]";

// "/" goes to the search, unless a slash is being typed somewhere.
document.addEventListener("keydown", (event) => {
  const search = document.getElementById("search");
  if (event.key !== "/" || !search || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.target.closest(EDITABLE)) return;
  event.preventDefault();
  search.focus();
  search.select();
});

document.addEventListener("click", (event) => {
  const close = event.target.closest("[data-dismiss]");
  if (!close) return;
  close.closest("li").remove();
  document.getElementById("main")?.focus({ preventScroll: true });
});

// On a phone the strip opens where the reader stands, not at its start.
function showCurrentStep() {
  const here = document.querySelector(".strip [aria-current]");
  const tape = here?.closest("ol");
  if (tape) tape.scrollLeft = here.offsetLeft - (tape.clientWidth - here.offsetWidth) / 2;
}

// What is wrong is read first.
function focusSummary(root) {
  root.querySelector("[data-focus]")?.focus();
}

// An answer while typing brings what it could not read; the field says so too.
document.addEventListener("htmx:oobAfterSwap", (event) => {
  const slot = event.detail.target;
  const field = slot.id.endsWith("_live") && document.getElementById(slot.id.slice(0, -"_live".length));
  if (!field) return;
  const list = slot.querySelector(".errorlist");
  const others = (field.getAttribute("aria-describedby") || "").split(" ").filter((id) => id && id !== `${field.id}_error`);
  if (list) {
    list.id = `${field.id}_error`;
    others.push(list.id);
    field.setAttribute("aria-invalid", "true");
  } else field.removeAttribute("aria-invalid");
  if (others.length) field.setAttribute("aria-describedby", others.join(" "));
  else field.removeAttribute("aria-describedby");
});

// The same in figures stays open from one answer to the next.
const opened = new Set();
const spoken = (one) => one.id || one.querySelector("[aria-label]")?.getAttribute("aria-label");
document.addEventListener("toggle", (event) => {
  if (event.target.matches("#preview details")) opened[event.target.open ? "add" : "delete"](spoken(event.target));
}, true);
// What is folded away is not drawn anew at every key; unfolded, it asks for itself.
document.addEventListener("htmx:configRequest", (event) => {
  const { path, formData } = event.detail;
  if (path.endsWith("/preview/")) for (const fold of document.querySelectorAll("#preview details.fold[id]:not([open])")) formData.append("folded", fold.id);
});
function openAgain(root) {
  // What is put in may be such a table itself.
  const inside = root.querySelectorAll("#preview details");
  for (const one of root.matches?.("#preview details") ? [root, ...inside] : inside) one.open ||= opened.has(spoken(one));
}

showCurrentStep();
focusSummary(document);
readCharts(document);
keepFocus();
typeRows();
keepTyping();
sendOnce();
showOnly();
orderRoutes();
turnWheels();
takeFigures();
pickParts();
watchUndo();
watchBusy();
awaitPrint();
document.documentElement.classList.add("js");
watchSignOut();
// Few pages are the bay's, have a table that is typed in, are drawn on.
if (document.querySelector("[data-bay]")) import("./bay.js").then(({ watchBay }) => watchBay());
if (document.querySelector("[data-row-table]")) import("./row_table.js").then(({ typeInTables }) => typeInTables());
if (document.querySelector("[data-surface]")) import("./draw/surface.js").then(({ drawSurfaces }) => drawSurfaces(document));
const microphone = document.querySelector("form[data-microphone]");
if (microphone) import("./microphone.js").then(({ measureHere }) => measureHere(microphone));
layPads();
if (document.querySelector("[data-pins]")) import("./pins.js").then(({ putPins }) => putPins());
if (document.getElementById("sign")) import("./sign.js");
if (document.querySelector("[data-marks]")) import("./marking.js").then(({ markPhotos }) => markPhotos());
document.addEventListener("htmx:load", (event) => {
  readCharts(event.detail.elt);
  openAgain(event.detail.elt);
});
