// Nothing typed is lost: a form marked data-keep is drafted in this tab until the server has it.
import { fitRows } from "./rows.js";

const SENT = "sent-form";

export function keepTyping() {
  const sent = sessionStorage.getItem(SENT);
  const cameBack = performance.getEntriesByType("navigation")[0]?.type === "back_forward";
  // Any other page of ours that answers a sent form has saved it or echoes it, save on the way back.
  if (sent && !cameBack) sessionStorage.removeItem(sent);
  sessionStorage.removeItem(SENT);

  document.querySelectorAll("form[data-keep]").forEach(watch);
  window.addEventListener("beforeunload", (event) => {
    if (document.querySelector("form[data-keep][data-dirty]:not([data-sending])")) event.preventDefault();
  });
}

// On a page that answers a sent form and did not save it: the draft stays until it is saved.
export function keepSent() {
  sessionStorage.removeItem(SENT);
}

export function watch(form) {
  const key = `draft ${location.pathname}#${form.id}`;
  const asServed = values(form);
  const draft = JSON.parse(sessionStorage.getItem(key) || "null");
  if (form.querySelector("[aria-invalid='true']")) form.dataset.dirty = "yes";
  else if (draft && draft.base === JSON.stringify(asServed)) restore(form, draft.typed, key, asServed);
  else sessionStorage.removeItem(key);

  form.addEventListener("input", () => {
    if (JSON.stringify(values(form)) === JSON.stringify(asServed)) {
      delete form.dataset.dirty;
      sessionStorage.removeItem(key);
      return;
    }
    form.dataset.dirty = "yes";
    sessionStorage.setItem(key, JSON.stringify({ base: JSON.stringify(asServed), typed: values(form) }));
  });
  form.addEventListener("submit", () => sessionStorage.setItem(SENT, key));
  // The server says so when a form that stays on the page has been saved.
  form.addEventListener("saved", () => {
    delete form.dataset.dirty;
    sessionStorage.removeItem(key);
  });
}

export function fields(form) {
  return [...form.elements].filter((field) => field.name && !["hidden", "file", "password", "submit", "button"].includes(field.type));
}

export function read(field) {
  return /checkbox|radio/.test(field.type) ? field.checked : field.value;
}

export function write(field, value) {
  if (typeof value === "boolean") field.checked = value;
  else field.value = value;
}

export function values(form) {
  return fields(form).map((field) => [field.name, read(field)]);
}

function put(form, list) {
  fitRows(form, list);
  const all = fields(form);
  list.forEach(([name, value], place) => {
    const field = all[place];
    if (field?.name === name) write(field, value);
  });
  form.dispatchEvent(new Event("change", { bubbles: true }));
  all[0]?.dispatchEvent(new Event("input", { bubbles: true }));
}

function restore(form, typed, key, asServed) {
  if (JSON.stringify(typed) === JSON.stringify(asServed)) return;
  const words = document.getElementById("restored-words")?.content.cloneNode(true);
  if (words) {
    const slip = words.firstElementChild;
    slip.querySelector("button").addEventListener("click", () => {
      put(form, asServed);
      slip.remove();
      delete form.dataset.dirty;
      sessionStorage.removeItem(key);
      form.querySelector(fieldsSelector)?.focus();
    });
    // A row of a table says it below its cells.
    if (form.matches(".typed-row")) form.append(slip);
    else form.prepend(slip);
  }
  // After every listener of the page is in place, so that results follow what is put back.
  setTimeout(() => put(form, typed));
  form.dataset.dirty = "yes";
}

const fieldsSelector = "input:not([type='hidden']), select, textarea";
