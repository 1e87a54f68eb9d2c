// A figure read from a data sheet goes into its field when it is ticked, and out again; the field's
// own listeners follow, as if it had been typed.
const before = new WeakMap();

export function takeFigures() {
  document.addEventListener("change", ({ target }) => {
    if (!target.dataset?.into) return;
    const field = document.getElementById(target.dataset.into);
    if (!field) return;
    if (target.checked) before.set(field, field.value);
    field.value = target.checked ? target.dataset.text : before.get(field) ?? field.defaultValue ?? "";
    field.dispatchEvent(new Event("input", { bubbles: true }));
  });
}
