// A part is picked by typing: words of its name and kind, and figures such as "165 mm 4 Ω". The list
// that stays behind the field is the plain choice a browser would show; it is what is sent.
const NEAR = 0.04;
const TO_MM = { mm: 1, cm: 10, m: 1000, in: 25.4 };
let figures = null;
let opened = 0;

export function pickParts(root = document) {
  for (const select of root.querySelectorAll("select[data-pick]")) dress(select);
}

// What each part is known by is asked for once, when somebody is about to look for one.
function learn(address) {
  figures ||= fetch(address, { headers: { Accept: "application/json" } })
    .then((answer) => (answer.ok ? answer.json() : {}))
    .catch(() => ({}));
  return figures;
}

function plain(text) {
  return text
    .toLowerCase()
    .replaceAll("\u00a0", " ")
    .replaceAll(/(\d),(\d)/g, "$1.$2")
    .replaceAll(/(\d) ?(?:ohms?|ω|Ω)/g, "$1 ω")
    .replaceAll(/(\d) ?(?:"|inch(?:es)?|zoll)/g, "$1 in");
}

function measures(text) {
  return [...text.matchAll(/(\d+(?:\.\d+)?) ?([a-zµω²]+)/g)].map(([, number, unit]) =>
    unit in TO_MM ? { value: number * TO_MM[unit], unit: "mm" } : { value: Number(number), unit },
  );
}

// Every word and every figure typed has to be borne out.
function matches(entry, typed) {
  const wanted = plain(typed);
  const has = measures(entry.text);
  const words = wanted.replaceAll(/\d+(?:\.\d+)? ?[a-zµω²]+/g, " ").split(/\s+/).filter(Boolean);
  return words.every((word) => entry.text.includes(word))
    && measures(wanted).every(({ value, unit }) => entry.text.replaceAll(" ", "").includes(`${value}${unit}`)
      || has.some((own) => own.unit === unit && Math.abs(own.value - value) <= NEAR * own.value));
}

function entries(select, known) {
  return [...select.options].filter((option) => option.value).map((option) => {
    const more = known[option.value] || {};
    const kind = option.parentElement.label || "";
    return { value: option.value, name: option.text, kind, more, text: plain([option.text, kind, more.figures].join(" ")) };
  });
}

function dress(select) {
  const old = select.previousElementSibling;
  if (old?.matches(".pick")) old.remove();
  const box = document.createElement("div");
  box.className = "pick";
  const id = `pick-${(opened += 1)}`;
  const field = Object.assign(document.createElement("input"), { type: "text", autocomplete: "off", spellcheck: false });
  const list = Object.assign(document.createElement("ul"), { id, className: "pick-list", hidden: true });
  list.setAttribute("role", "listbox");
  list.setAttribute("aria-label", select.getAttribute("aria-label") || select.dataset.pickSays || "");
  for (const [name, value] of [["role", "combobox"], ["aria-expanded", "false"], ["aria-controls", id], ["aria-autocomplete", "list"]]) field.setAttribute(name, value);
  const label = select.labels?.[0];
  if (select.getAttribute("aria-label")) field.setAttribute("aria-label", select.getAttribute("aria-label"));
  else if (label) field.setAttribute("aria-label", label.textContent.trim());
  if (select.required) field.required = true;
  box.append(field, list);
  select.before(box);
  select.hidden = true;
  const said = () => (select.value ? select.selectedOptions[0].text : "");
  field.value = said();

  let known = {};
  let shown = [];
  let active = -1;

  const open = (is) => {
    list.hidden = !is;
    field.setAttribute("aria-expanded", String(is));
    if (!is) field.removeAttribute("aria-activedescendant");
  };
  const point = (to) => {
    active = shown.length ? (to + shown.length) % shown.length : -1;
    [...list.children].forEach((line, n) => line.setAttribute("aria-selected", String(n === active)));
    const line = list.children[active];
    if (!line?.id) return;
    field.setAttribute("aria-activedescendant", line.id);
    line.scrollIntoView({ block: "nearest" });
  };
  const show = () => {
    shown = entries(select, known).filter((entry) => matches(entry, field.value));
    list.replaceChildren(...shown.slice(0, 50).map((entry, n) => {
      const line = Object.assign(document.createElement("li"), { id: `${id}-${n}` });
      line.setAttribute("role", "option");
      line.append(Object.assign(document.createElement("span"), { className: "pick-name", textContent: entry.name }));
      const more = [entry.kind, entry.more.figures, entry.more.price, entry.more.shelf].filter(Boolean).join(" · ");
      line.append(Object.assign(document.createElement("span"), { className: "fine", textContent: more }));
      if (entry.more.picture) line.prepend(Object.assign(document.createElement("img"), { src: entry.more.picture, alt: "", loading: "lazy", className: "pick-picture" }));
      line.addEventListener("pointerdown", (event) => { event.preventDefault(); take(entry); });
      return line;
    }));
    shown = shown.slice(0, 50);
    open(shown.length > 0);
    point(0);
  };
  const take = (entry) => {
    select.value = entry ? entry.value : "";
    field.value = said();
    field.setCustomValidity("");
    open(false);
    select.dispatchEvent(new Event("input", { bubbles: true }));
    select.dispatchEvent(new Event("change", { bubbles: true }));
  };
  // Left with something typed: one part bears it and is meant, or it is not chosen and says so.
  const settle = () => {
    open(false);
    const typed = field.value.trim();
    if (typed === said()) return;
    if (!typed) return take(null);
    const all = entries(select, known).filter((entry) => matches(entry, typed));
    const exact = all.filter((entry) => entry.name.toLowerCase() === typed.toLowerCase());
    if (all.length === 1 || exact.length === 1) return take(exact[0] || all[0]);
    select.value = "";
    field.setCustomValidity(select.dataset.pickAsks || "?");
    select.dispatchEvent(new Event("input", { bubbles: true }));
  };

  field.addEventListener("focus", () => {
    field.select();
    learn(select.dataset.pick).then((answer) => { known = answer; if (!list.hidden) show(); });
  });
  field.addEventListener("input", (event) => { event.stopPropagation(); field.setCustomValidity(""); show(); });
  // What the browser says of this field is not about the choice behind it.
  field.addEventListener("change", (event) => event.stopPropagation());
  field.addEventListener("blur", settle);
  field.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      if (list.hidden) show();
      else point(active + (event.key === "ArrowDown" ? 1 : -1));
    } else if (event.key === "Enter" && !list.hidden) {
      event.preventDefault();
      // The row below has the same key for going on; this one only chooses.
      event.stopPropagation();
      take(shown[active]);
    } else if (event.key === "Escape" && !list.hidden) {
      event.stopPropagation();
      field.value = said();
      open(false);
    }
  });
  // Put back from a draft, emptied, or answered: what is shown is what would be sent.
  const follow = () => { if (document.activeElement !== field) field.value = said(); };
  select.form?.addEventListener("change", follow);
  select.form?.addEventListener("reset", () => setTimeout(follow));
}
