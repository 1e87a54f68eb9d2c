// Lists typed as tables: a row more, a row less. What is typed into which row is the form's matter.
export function typeRows() {
  for (const box of document.querySelectorAll("[data-rows]")) attach(box);
}

export const rowsOf = (box) => [...box.querySelectorAll("tbody > tr")];
export const cellOf = (row, name) => row.querySelector(`[name$="-${name}"]`);
const inputs = (row) => [...row.querySelectorAll("input, select")];
const isEmpty = (row) => inputs(row).every((cell) => !cell.value.trim());

// Rows somebody typed into, in the order of the page.
export const typedRows = (box) => rowsOf(box).filter((row) => !isEmpty(row));

// What is drawn, drafted and taken back follows as if it had been typed.
export const tell = (box) => box.dispatchEvent(new Event("input", { bubbles: true }));

export function setRows(box, count) {
  const rows = rowsOf(box);
  for (const row of rows.slice(Math.max(count, 1))) row.remove();
  for (let n = rows.length; n < count; n += 1) rowAfter(box, rowsOf(box).at(-1));
}

// As many rows as a kept state of the form has values for.
export function fitRows(form, kept) {
  for (const box of form.querySelectorAll("[data-rows]")) {
    const first = inputs(rowsOf(box)[0])[0].name;
    setRows(box, kept.filter(([name]) => name === first).length);
  }
}

// A new empty row below one, or the empty one that is there already.
export function rowAfter(box, row) {
  if (rowsOf(box).length >= Number(box.dataset.most)) return null;
  const added = row.cloneNode(true);
  for (const cell of inputs(added)) {
    cell.value = "";
    cell.removeAttribute("aria-invalid");
  }
  row.after(added);
  number(box);
  return added;
}

// The first empty row below what is typed, or a new one.
export function freeRow(box) {
  const last = typedRows(box).at(-1);
  const free = last ? last.nextElementSibling : rowsOf(box)[0];
  return free || rowAfter(box, last);
}

export function rowOut(box, row) {
  if (rowsOf(box).length > 1) row.remove();
  else for (const cell of inputs(row)) cell.value = "";
  number(box);
}

function number(box) {
  rowsOf(box).forEach((row, n) => {
    row.querySelector("th").textContent = n + 1;
    for (const cell of inputs(row)) cell.setAttribute("aria-label", `${cell.closest("td").dataset.label} ${n + 1}`);
  });
}

function attach(box) {
  let row = null;
  box.addEventListener("focusin", (event) => { row = event.target.closest("tbody > tr") || row; });
  box.addEventListener("click", (event) => {
    const here = row?.isConnected ? row : typedRows(box).at(-1) || rowsOf(box)[0];
    if (event.target.closest("[data-row-add]")) {
      const added = rowAfter(box, here);
      if (added) inputs(added)[0].focus();
    } else if (event.target.closest("[data-row-out]")) {
      const next = here.nextElementSibling || here.previousElementSibling || here;
      rowOut(box, here);
      inputs(next)[0].focus();
    } else return;
    tell(box);
  });
}
