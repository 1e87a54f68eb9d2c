// The places of a route stand in its order; one can be moved ahead of the one before it, and a panel
// that is tapped on the plan of the car is the next one the cable passes.
export function orderRoutes() {
  for (const button of document.querySelectorAll("[data-earlier]")) button.hidden = !button.closest("li").previousElementSibling;
  for (const plan of document.querySelectorAll("[data-route-plan]")) number(plan);
  document.addEventListener("click", ({ target }) => {
    const button = target.closest("[data-earlier]");
    if (button) moveForward(button);
    const panel = target.closest("[data-route-plan] button");
    if (panel) pass(panel);
  });
  document.addEventListener("input", ({ target }) => {
    const route = target.closest?.(".route");
    const plan = route && document.querySelector(`[data-route-plan="${route.id}"]`);
    if (plan) number(plan);
  });
}

function moveForward(button) {
  const stop = button.closest("li");
  stop.previousElementSibling?.before(stop);
  for (const one of stop.parentElement.children) one.querySelector("[data-earlier]").hidden = !one.previousElementSibling;
  (button.hidden ? stop.querySelector("select") : button).focus();
  // For the draft and for the live results.
  tell(stop.querySelector("select"));
}

const tell = (field) => field.dispatchEvent(new Event("input", { bubbles: true }));
const stopsOf = (plan) => [...document.getElementById(plan.dataset.routePlan).children];
const panelOf = (stop) => stop.querySelector("select");
const isEmpty = (stop) => !panelOf(stop).value && !stop.querySelector("input").value;

function pass(button) {
  const plan = button.closest("[data-route-plan]");
  const stops = stopsOf(plan);
  const last = stops.findLast((stop) => !isEmpty(stop));
  if (last && panelOf(last).value === button.value && !last.querySelector("input").value) {
    panelOf(last).value = "";
    tell(panelOf(last));
    return;
  }
  const next = stops[last ? stops.indexOf(last) + 1 : 0] || another(stops.at(-1));
  panelOf(next).value = button.value;
  tell(panelOf(next));
}

// One more place to write on, like the last one and empty.
function another(stop) {
  const here = stop.parentElement.children.length;
  const box = document.createElement("template");
  box.innerHTML = stop.outerHTML.replaceAll(`-${here}-`, `-${here + 1}-`);
  const next = box.content.firstElementChild;
  for (const field of next.querySelectorAll("input")) field.value = "";
  for (const field of next.querySelectorAll("select")) field.selectedIndex = 0;
  next.querySelector("[data-earlier]").hidden = false;
  stop.after(next);
  return next;
}

// Each panel says as the how manieth the cable passes it.
function number(plan) {
  const order = stopsOf(plan).filter((stop) => !isEmpty(stop)).map((stop) => panelOf(stop).value);
  for (const button of plan.querySelectorAll("button")) {
    const places = order.flatMap((key, n) => (key === button.value ? [n + 1] : []));
    button.dataset.passed = places.join(", ");
    button.setAttribute("aria-pressed", String(places.length > 0));
  }
}
