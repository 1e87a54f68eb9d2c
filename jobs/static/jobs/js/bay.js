// The bay without signal: ticks, values, notes, photos and what was done differently wait on the
// device and are sent once, in order, under the sign-in of whoever did them. What the server cannot take is shown, never dropped.
import { drop, every, keep, newKey } from "./acts.js";

const RETRY = [2000, 5000, 15000, 30000];
let bay, words, sending = false, leaving = false, later = 0, tries = 0, trouble = "";
let unkept = [];  // photos the device has no room for: only this page has them

export function watchBay() {
  bay = document.querySelector("[data-bay]");
  words = document.getElementById("bay-words").dataset;
  if ("serviceWorker" in navigator) navigator.serviceWorker.register("/worker.js").catch(() => {});
  navigator.storage?.persist?.();
  document.addEventListener("submit", takeForm, true);
  document.addEventListener("change", sendPhotos);
  document.addEventListener("htmx:sendError", (event) => takeBack(event.detail.elt));
  document.addEventListener("htmx:beforeSwap", (event) => {
    // A sign-in that ran out answers with its own page: that is no answer to a tick.
    if (!new URL(event.detail.xhr.responseURL || location.href, location.href).pathname.startsWith("/sign-in/")) return;
    event.detail.shouldSwap = false;
    takeBack(event.detail.elt);
  });
  window.addEventListener("online", () => send());
  window.addEventListener("beforeunload", (event) => unkept.length && event.preventDefault());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && send());
  keepFolds();
  openTarget();
  window.addEventListener("hashchange", openTarget);
  chooseRow();
  keepForms();
  show().then(send);
}

// Ticks go straight to the server while nothing waits; everything else always by way of the device,
// for an answer that never comes would take what was typed along.
function takeForm(event) {
  const form = event.target;
  if (!form.dataset?.act || !bay.contains(form)) return;
  if (form.dataset.act === "tick" && navigator.onLine && !waitsAlready() && !leaving) return;
  if (form.dataset.reached) return;
  event.preventDefault();
  event.stopImmediatePropagation();
  if (form.dataset.act === "row") reach(form, event.submitter);
  else take(form, event.submitter);
}

// What was done differently is answered by its page with what the checks say, where it is reached.
async function reach(form, submitter) {
  const asked = waitsAlready() ? null : await fetch(bay.dataset.acts).catch(() => null);
  if (!asked?.ok || asked.redirected) return take(form, submitter);
  form.dataset.reached = "yes";
  form.requestSubmit(submitter);
}

// The empty form stands in for those that were not opened while there was signal.
function chooseRow() {
  for (const [name, value] of new URLSearchParams(location.search)) {
    const choice = bay.querySelector(`form[data-act='row'] select[name='${CSS.escape(name)}']`);
    if (choice && !choice.value) choice.value = value;
  }
}

async function keepForms() {
  if (!bay.dataset.forms || !("caches" in window)) return;
  const kept = await caches.open("bay-pages"), today = new Date().toDateString();
  for (const address of bay.dataset.forms.split(" ")) {
    const before = await kept.match(address);
    if (before && new Date(before.headers.get("Date")).toDateString() === today) continue;
    const answer = await fetch(address).catch(() => null);
    if (answer?.ok && !answer.redirected) await kept.put(address, answer);
  }
}

const waitsAlready = () => !document.getElementById("bay-waiting").hidden;

function takeBack(element) {
  const form = element?.closest?.("form[data-act='tick']");
  if (form) take(form);
}

async function take(form, submitter) {
  const data = new FormData(form, submitter ?? undefined), kind = form.dataset.act;
  const act = {
    key: newKey(), author: bay.dataset.who, to: bay.dataset.acts, job: bay.dataset.job, kind,
    at: new Date().toISOString(), state: "waiting", fields: {},
  };
  if (kind === "tick") act.fields = { step: form.dataset.step, done: data.get("done"), sure: data.get("sure") ?? "" };
  if (kind === "caution") act.fields = { panel: form.dataset.panel };
  if (kind === "looked") act.fields = { panel: form.dataset.panel, what: data.get("what"), there: data.get("there") };
  if (kind === "note") act.fields = { note: data.get("kind"), panel: data.get("panel"), text: data.get("text") ?? "", minutes: data.get("minutes") ?? "", fixing: data.get("fixing") ?? "" };
  if (kind === "row") {
    data.delete("csrfmiddlewaretoken");
    act.fields = { row: form.dataset.row, pk: form.dataset.pk, form: new URLSearchParams(data).toString() };
  }
  if (kind === "value") {
    const pk = form.dataset.value, text = data.getAll(`m${pk}-value`).at(-1).trim();
    if (!text) return form.submit();
    act.fields = { value: pk, text, version: data.get(`m${pk}-version`) ?? "" };
  }
  try {
    if (kind === "photo") {
      const { panel = "", step = "", visit = "" } = form.dataset, fields = { panel, step, visit };
      const files = [...form.querySelector("[type=file]").files];
      await keepPhotos([...unkept, ...files.map((file) => ({ ...act, key: newKey(), fields, file, name: file.name }))]);
      form.reset();
    } else await keep(act);
  } catch {
    // Nothing is cleared: what was typed still stands in its field.
    return say(words.nostore);
  }
  // The draft of the form is the act now, and nothing in it is unsaved.
  for (const field of form.querySelectorAll("[name$='-value']")) field.defaultValue = field.value;
  form.dispatchEvent(new Event("saved"));
  if (kind === "note") form.reset();
  if (kind === "row") return location.assign(bay.dataset.back);
  await show();
  send();
}

// One after the other, as far as the device has room; the rest follows as room is made by sending.
async function keepPhotos(acts) {
  unkept = acts;
  while (unkept.length && await keep(unkept[0]).then(() => true, () => false)) unkept = unkept.slice(1);
  if (unkept.length && !(await every()).length) {
    unkept = [];
    throw new Error("nothing is kept here");
  }
}

function sendPhotos(event) {
  if (event.target.matches("[data-send-at-once]") && event.target.files.length) event.target.form.requestSubmit();
}

async function send() {
  if (sending) return;
  sending = true;
  let sent = 0;
  try {
    const acts = (await every()).filter((act) => act.state === "waiting" && act.author === bay.dataset.who);
    for (const act of acts) {
      const answer = await sendOne(act);
      if (!answer) break;
      sent += answer === 200;
      if (sent % 10 === 9) await show();
    }
    if (sent && unkept.length) await keepPhotos(unkept);
  } finally {
    sending = false;
  }
  const left = await show();
  if (left.some((act) => act.state === "waiting" && act.author === bay.dataset.who) && trouble !== "signin") {
    setTimeout(send, RETRY[Math.min(tries++, RETRY.length - 1)] * (0.75 + Math.random() / 2));
  } else if (sent && !left.some((act) => act.state === "waiting")) {
    tries = 0;
    fresh();
  }
}

// Returns the status, or nothing where there is no going on now.
async function sendOne(act) {
  let answer, says = "", meant = "";
  try {
    const who = await fetch(act.to, { headers: { Accept: "application/json" } });
    if (who.redirected || who.status === 403) { trouble = "signin"; return 0; }
    if (!who.ok) { trouble = "offline"; return 0; }
    const { who: signedIn, token } = await who.json();
    if (String(signedIn) !== act.author) { trouble = "signin"; return 0; }
    const body = new FormData();
    for (const name of ["key", "author", "kind", "at"]) body.append(name, act[name]);
    for (const [name, value] of Object.entries(act.fields)) body.append(name, value ?? "");
    if (act.file) body.append("photo", act.file, act.name);
    body.append("sent", new Date().toISOString());
    answer = await fetch(act.to, { method: "POST", body, headers: { "X-CSRFToken": token } });
    if (answer.headers.get("Content-Type")?.includes("json")) ({ says = "", meant = "" } = await answer.json());
  } catch {
    trouble = "offline";
    return 0;
  }
  trouble = "";
  if (answer.ok) {
    await drop(act.order);
    if (says) sessionStorage.setItem("bay-said", `${sessionStorage.getItem("bay-said") ?? ""}${says}\n`);
    return 200;
  }
  if (answer.status === 401) { trouble = "signin"; return 0; }
  if (answer.status >= 500 || answer.redirected) { trouble = "offline"; return 0; }
  await keep({ ...act, state: "parked", status: answer.status, says: says || String(answer.status), meant });
  return answer.status;
}

// Says what waits, honestly: of this person, of others, and what was not taken with a way out.
async function show() {
  const bar = document.getElementById("bay-waiting"), acts = await every().catch(() => null);
  if (!acts) { say(words.nostore); return []; }
  const mine = acts.filter((act) => act.author === bay.dataset.who), theirs = acts.length - mine.length;
  const waiting = mine.filter((act) => act.state === "waiting");
  const lines = [];
  if (waiting.length) {
    const text = trouble === "signin" ? words.signin : trouble === "offline" || !navigator.onLine ? words.offline : words.waiting;
    lines.push(line(text.replace("{n}", waiting.length)));
    if (!window.isSecureContext) lines.push(line(words.insecure));
  }
  if (unkept.length) lines.push(line(words.full.replace("{n}", unkept.length)));
  if (theirs) lines.push(line(words.theirs.replace("{n}", theirs)));
  for (const act of mine.filter((one) => one.state === "parked")) lines.push(parked(act));
  const said = sessionStorage.getItem("bay-said");
  if (said && !waiting.length) lines.push(...said.trim().split("\n").map(line));
  bar.replaceChildren(...lines);
  bar.hidden = !lines.length;
  for (const act of waiting) mark(act);
  return acts;
}

function line(text) {
  const part = document.createElement("span");
  part.className = "bay-line";
  part.textContent = text;
  return part;
}

function parked(act) {
  const part = line(words.failed.replace("{s}", act.says));
  if (act.meant) part.append(button(words.meant.replace("{s}", act.meant), () => sendAgain(act, { text: act.meant })));
  if (act.status === 409) part.append(button(words.again, () => sendAgain(act, { sure: "1" })));
  part.append(button(words.drop, () => drop(act.order)));
  return part;
}

async function sendAgain(act, changed) {
  await drop(act.order);
  const { order, meant, ...same } = act;
  await keep({ ...same, key: newKey(), state: "waiting", fields: { ...act.fields, ...changed } });
}

function button(text, does) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = text;
  made.addEventListener("click", async () => { await does(); await show(); send(); });
  return made;
}

function say(text) {
  const bar = document.getElementById("bay-waiting");
  bar.replaceChildren(line(text));
  bar.hidden = false;
}

function mark(act) {
  if (act.kind !== "tick") return;
  const step = document.getElementById(`step-${act.fields.step}`);
  step?.classList.add("is-waiting");
  step?.querySelector(".bay-tick")?.setAttribute("aria-pressed", act.fields.done === "1" ? "true" : "false");
}

// The page as the server has it now; where it scrolls and what is unfolded stays. It waits for a
// tick that is on its way and for words that are being typed: a page that is left loses both.
function fresh() {
  if (!bay.id || unkept.length) return;  // somebody types here, or photos are in this page only
  clearTimeout(later);
  if (document.querySelector(".htmx-request") || isTyping()) { later = setTimeout(fresh, 500); return; }
  leaving = true;
  sessionStorage.setItem("bay-scroll", String(scrollY));
  location.reload();
}

const isTyping = () => [...bay.querySelectorAll("input:not([type=hidden], [type=file]), textarea")]
  .some((field) => field.value !== field.defaultValue);

function keepFolds() {
  const kept = new Set(JSON.parse(sessionStorage.getItem(`bay-open-${bay.dataset.job}`) ?? "[]"));
  for (const fold of bay.querySelectorAll("details.bay-panel[id]")) fold.open ||= kept.has(fold.id);
  bay.addEventListener("toggle", () => {
    const open = [...bay.querySelectorAll("details.bay-panel[id][open]")].map((fold) => fold.id);
    sessionStorage.setItem(`bay-open-${bay.dataset.job}`, JSON.stringify(open));
  }, true);
  const scroll = sessionStorage.getItem("bay-scroll");
  sessionStorage.removeItem("bay-scroll");
  if (scroll) scrollTo(0, Number(scroll));
  // What was said of acts that were sent is shown once.
  setTimeout(() => sessionStorage.removeItem("bay-said"));
}

// A link to a step or a value that lies in a fold unfolds it.
function openTarget() {
  const target = document.getElementById(location.hash.slice(1) || "bay");
  for (let fold = target?.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  if (location.hash) target?.scrollIntoView({ block: "nearest" });
}
