// Signing out clears the car from the device (worker.js); what waits stays, and is asked about first.
export function watchSignOut() {
  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!form.dataset?.signOut || form.dataset.asked) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const waiting = await import("./acts.js").then(({ every }) => every()).catch(() => []);
    if (waiting.length && !confirm(form.dataset.signOut)) return;
    form.dataset.asked = "yes";
    form.requestSubmit();
  }, true);
}
