// Tables that are typed in, saved row by row. The page that comes after a row was saved is read for
// what follows from it; what somebody is still typing in another row stays as it is.
import { newKey } from "./acts.js";
import { pickParts } from "./pick.js";
import { values, watch } from "./typing.js";

const CONTROLS = "input:not([type='hidden']), select, textarea";
const sent = new WeakMap();
let blanks = 0;

export function typeInTables() {
  document.addEventListener("keydown", goDown);
  document.addEventListener("focusout", saveOnLeaving);
  document.addEventListener("htmx:beforeRequest", ({ detail }) => {
    if (!tableOf(detail.elt)) return;
    sent.set(detail.elt, JSON.stringify(values(detail.elt)));
    say(tableOf(detail.elt), "saving");
  });
  document.addEventListener("htmx:beforeOnLoad", answered);
  for (const kind of ["htmx:sendError", "htmx:timeout"]) {
    document.addEventListener(kind, ({ detail }) => { if (tableOf(detail.elt)) say(tableOf(detail.elt), "unsent"); });
  }
}

const rowsOf = (table) => [...table.querySelectorAll(".typed-row")];
const cellsOf = (row) => [...row.querySelectorAll(".typed-column")].flatMap((column) => [...column.querySelectorAll(CONTROLS)]);
// What somebody sees and types into: a choice that is picked by typing has a field in front of it.
const faceOf = (cell) => (cell.hidden && cell.previousElementSibling?.querySelector("input")) || cell;
const isBlank = (row) => row.dataset.blank !== undefined;
const tableOf = (form) => form.closest?.("[data-row-table]") || (form.matches?.(".row-acts") ? document.getElementById(form.id.replace(/-acts$/, "")) : null);

function say(table, word, more = "") {
  document.getElementById(`${table.id}-says`).textContent = [table.dataset[word], more].filter(Boolean).join(" ");
}

// Enter saves the row and goes on to the one below it; after the last there is an empty one.
function goDown(event) {
  const row = event.target.closest(".typed-row");
  if (event.key !== "Enter" || !row || !event.target.matches(".typed-column input, .typed-column select")) return;
  if (event.target.getAttribute("aria-expanded") === "true") return;
  event.preventDefault();
  const place = cellsOf(row).indexOf(event.target);
  const whole = row.checkValidity();
  if (row.dataset.dirty) row.requestSubmit();
  if (isBlank(row) && (!row.dataset.dirty || !whole)) return;
  const rows = rowsOf(tableOf(row));
  const next = rows[rows.indexOf(row) + 1] || blankAfter(row);
  cellsOf(next)[isBlank(row) ? 0 : place].focus();
}

// Whoever leaves a row has typed it; a new one only when nothing is missing in it.
function saveOnLeaving(event) {
  const row = event.target.closest?.(".typed-row");
  if (!row?.dataset.dirty || row.contains(event.relatedTarget) || !document.hasFocus()) return;
  if (sent.get(row) === JSON.stringify(values(row))) return;
  if (!isBlank(row) || row.checkValidity()) row.requestSubmit();
}

function blankAfter(row) {
  const text = row.outerHTML.replaceAll(row.id, `${row.id.replace(/-new.*/, "-new")}${(blanks += 1)}`);
  const box = document.createElement("template");
  box.innerHTML = text;
  const blank = box.content.firstElementChild;
  blank.reset();
  delete blank.dataset.dirty;
  blank.querySelector("[name='entry_token']").value = newKey();
  for (const error of blank.querySelectorAll(".errorlist")) error.remove();
  row.after(blank);
  start(blank);
  return blank;
}

function start(row) {
  pickParts(row);
  window.htmx.process(row);
  watch(row);
}

function answered(event) {
  const form = event.detail.elt;
  const table = tableOf(form);
  if (!table) return;
  event.preventDefault();
  const { status, responseText } = event.detail.xhr;
  if (status === 422 || status === 409) return refuse(table, form, JSON.parse(responseText));
  const page = new DOMParser().parseFromString(responseText, "text/html");
  if (status !== 200 || !page.getElementById(table.id)) return say(table, "unsent");
  const done = form.matches(".typed-row");
  if (done) settle(form, page);
  for (const here of document.querySelectorAll("[data-row-table]")) take(here, page);
  for (const here of document.querySelectorAll("[data-follows]")) follow(here, page);
  const news = page.querySelector("#messages .messages");
  document.getElementById(`${table.id}-news`).replaceChildren(...(news ? [document.importNode(news, true)] : []));
  form.querySelector?.("[name='token']")?.setAttribute("value", newKey());
  say(table, done ? "saved" : "");
}

// What was typed is stored; typed on meanwhile, the row counts from what is stored now.
function settle(row, page) {
  clearErrors(row);
  if (sent.get(row) === JSON.stringify(values(row))) row.dispatchEvent(new Event("saved"));
  if (!isBlank(row)) {
    const version = page.getElementById(row.id)?.querySelector("[name='version']");
    if (version) row.querySelector("[name='version']").value = version.value;
    return;
  }
  if (row.dataset.dirty) return;
  const rows = rowsOf(tableOf(row));
  const next = rows[rows.indexOf(row) + 1] || blankAfter(row);
  if (row.contains(document.activeElement)) cellsOf(next)[0].focus();
  row.remove();
}

function take(table, page) {
  const fresh = page.getElementById(table.id);
  if (!fresh) return;
  let before = null;
  for (const row of rowsOf(fresh)) {
    const here = document.getElementById(row.id);
    if (isBlank(row)) { rowsOf(table).filter(isBlank).forEach((blank) => keep(blank, row)); continue; }
    if (here && (here.dataset.dirty || here.contains(document.activeElement))) keep(here, row);
    else put(table, here, row, before);
    before = document.getElementById(row.id);
  }
  for (const row of rowsOf(table)) {
    if (!isBlank(row) && !row.dataset.dirty && !page.getElementById(row.id)) row.remove();
  }
}

function put(table, here, row, before) {
  const next = document.importNode(row, true);
  const ticked = here?.querySelector(".row-tick input")?.checked;
  if (here) here.replaceWith(next);
  else if (before) before.after(next);
  else table.querySelector(".row-body").prepend(next);
  if (ticked) next.querySelector(".row-tick input").checked = true;
  start(next);
}

// A row somebody is in keeps its cells; what is offered in them and worked out beside them follows.
function keep(here, row) {
  const beside = [...row.querySelectorAll(".row-beside")];
  here.querySelectorAll(".row-beside").forEach((cell, n) => { cell.textContent = beside[n].textContent; });
  for (const select of here.querySelectorAll(".typed-column select")) {
    const offered = row.querySelector(`select[name="${select.name}"]`);
    if (!offered || offered.options.length === select.options.length) continue;
    const { value } = select;
    select.replaceChildren(...[...offered.children].map((option) => document.importNode(option, true)));
    select.value = value;
  }
}

function follow(here, page) {
  const fresh = page.getElementById(here.id);
  if (!fresh || here.contains(document.activeElement)) return;
  const next = document.importNode(fresh, true);
  here.replaceWith(next);
  window.htmx.process(next);
}

function clearErrors(row) {
  for (const error of row.querySelectorAll(".errorlist")) error.remove();
  for (const cell of row.querySelectorAll("[aria-invalid]")) {
    cell.removeAttribute("aria-invalid");
    cell.removeAttribute("aria-describedby");
  }
}

function list(messages, id) {
  const box = document.createElement("ul");
  box.className = "errorlist";
  box.id = id;
  for (const message of messages) box.append(Object.assign(document.createElement("li"), { textContent: message }));
  return box;
}

function refuse(table, row, wrong) {
  clearErrors(row);
  // What somebody else changed and nobody touched here stands in the row from now on.
  for (const [name, held] of Object.entries(wrong.theirs || {})) {
    const cell = cellsOf(row).find((control) => control.name === name);
    if (cell?.type === "checkbox") cell.checked = held.length > 0;
    else if (cell) cell.value = held[0] ?? "";
  }
  if (wrong.version) row.querySelector("[name='version']").value = wrong.version;
  for (const [name, messages] of Object.entries(wrong.cells)) {
    const named = cellsOf(row).find((control) => control.name === name);
    if (!named) continue;
    const cell = faceOf(named);
    cell.setAttribute("aria-invalid", "true");
    cell.setAttribute("aria-describedby", `${cell.id}_error`);
    cell.closest(".typed-cell").append(list(messages, `${cell.id}_error`));
  }
  if (wrong.row.length) row.append(list(wrong.row, `${row.id}_error`));
  row.dataset.dirty = "yes";
  say(table, "wrong", wrong.row.join(" "));
  if (row.contains(document.activeElement)) row.querySelector("[aria-invalid]")?.focus();
}
