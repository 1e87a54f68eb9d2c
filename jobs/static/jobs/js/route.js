// The places of a route stand in its order; one can be moved ahead of the one before it.
export function orderRoutes() {
  for (const button of document.querySelectorAll("[data-earlier]")) button.hidden = !button.closest("li").previousElementSibling;
  document.addEventListener("click", (event) => {
    const button = event.target.closest("[data-earlier]");
    if (!button) return;
    const stop = button.closest("li");
    stop.previousElementSibling?.before(stop);
    for (const one of stop.parentElement.children) one.querySelector("[data-earlier]").hidden = !one.previousElementSibling;
    (button.hidden ? stop.querySelector("select") : button).focus();
    // For the draft and for the live results.
    stop.querySelector("select").dispatchEvent(new Event("input", { bubbles: true }));
  });
}
