// Fields that mean nothing for the chosen kind or shape (of box or port) step aside; what was typed in them stays, and
// what is to be put right is always in sight.
export function showOnly() {
  for (const form of document.querySelectorAll("form:has([data-only])")) {
    const choices = [form.elements.kind, form.elements.shape, form.elements.port_shape].filter(Boolean);
    const show = () => {
      const chosen = choices.map((choice) => choice.value);
      for (const group of form.querySelectorAll("[data-only]")) group.hidden = !group.dataset.only.split(" ").some((one) => chosen.includes(one)) && !group.querySelector("[aria-invalid='true']");
    };
    for (const choice of choices) choice.addEventListener("change", show);
    show();
  }
}
