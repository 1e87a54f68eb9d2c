// A form is sent once; the server counts entry tokens too, this only spares the wait.
export function sendOnce() {
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (event.defaultPrevented || form.method !== "post") return;
    if (form.dataset.sending) {
      event.preventDefault();
      event.stopImmediatePropagation();
      return;
    }
    form.dataset.sending = "yes";
    // After this turn: a button disabled before sending would not be sent itself.
    setTimeout(() => lock(form, true));
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    const form = event.detail.elt.closest("form");
    if (form) release(form);
  });
  window.addEventListener("pageshow", () => document.querySelectorAll("form[data-sending]").forEach(release));
}

function release(form) {
  delete form.dataset.sending;
  lock(form, false);
}

function lock(form, shut) {
  for (const button of form.querySelectorAll("button:not([type='button']), input[type='submit']")) {
    if (shut) button.setAttribute("aria-disabled", "true");
    else button.removeAttribute("aria-disabled");
    button.classList.toggle("sending", shut);
  }
}
