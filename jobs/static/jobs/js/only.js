// Fields that mean nothing for the chosen kind step aside; what was typed in them stays.
export function showOnly() {
  for (const form of document.querySelectorAll("form:has([data-only])")) {
    const kind = form.elements.kind;
    const show = () => {
      for (const group of form.querySelectorAll("[data-only]")) group.hidden = !group.dataset.only.split(" ").includes(kind.value);
    };
    kind.addEventListener("change", show);
    show();
  }
}
