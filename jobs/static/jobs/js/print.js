// A page that waits for a print: asks how far it is, less and less often, and loads itself again
// when there is something to show. The server away for a moment is no reason to stop asking.
const SOONEST = 400;
const LATEST = 5000;
const SLOWER = 1.25;

export function awaitPrint() {
  const slot = document.querySelector("[data-print]");
  if (!slot) return;
  let pause = SOONEST;
  let said = "";

  async function ask() {
    try {
      const answer = await fetch(slot.dataset.print);
      if (answer.status < 500) {
        const says = await answer.text();
        if (answer.status !== 202) {
          location.reload();
          return;
        }
        if (says !== said) slot.innerHTML = said = says; // else it would be read out again
      }
    } catch {
      // asked again below
    }
    pause = Math.min(pause * SLOWER, LATEST);
    setTimeout(ask, pause);
  }
  setTimeout(ask, pause);
}
