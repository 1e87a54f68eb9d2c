// An answer that takes the place of what somebody stands on, or pushes it out of sight, leaves
// them where they were: on the heading of what came, and in view.
let stood = null;
let before = null;

function note(here) {
  stood = here;
  before = here.getBoundingClientRect();
}

function headingOf(target) {
  const section = target.closest("[aria-labelledby]");
  const heading = document.getElementById(section?.getAttribute("aria-labelledby")) || target;
  heading.tabIndex = -1;
  return heading;
}

function stay() {
  const wasInSight = before.bottom > 0 && before.top < window.innerHeight;
  if (stood === document.body || document.activeElement !== stood || !wasInSight) return;
  if (stood.getBoundingClientRect().top !== before.top) stood.scrollIntoView({ block: "nearest", behavior: "instant" });
  note(stood);
}

// An address that names a place opens what it is folded into; a field gets the hands on it.
function goToField() {
  const field = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const folded = field?.closest("details:not([open])");
  for (let fold = folded; fold; fold = fold.parentElement.closest("details")) fold.open = true;
  if (folded) field.scrollIntoView();
  if (!field?.matches("input, select, textarea, fieldset")) return;
  (field.matches("fieldset") ? field.querySelector("input, select, textarea") : field)?.focus();
}

export function keepFocus() {
  goToField();
  window.addEventListener("hashchange", goToField);
  document.addEventListener("htmx:beforeSwap", () => note(document.activeElement));
  document.addEventListener("htmx:afterSwap", (event) => {
    if (document.activeElement === document.body && stood !== document.body) {
      stood = headingOf(event.target);
      stood.focus({ preventScroll: true });
    }
    stay();
  });
  // Charts grow when they are read.
  document.addEventListener("htmx:afterSettle", stay);
}
