// Anything longer than a second says so.
const PATIENCE = 1000;
const LONGEST = 15000;

export function watchBusy() {
  const bar = document.getElementById("busy");
  if (!bar) return;
  let running = 0;
  let timer = 0;

  function start() {
    running += 1;
    clearTimeout(timer);
    timer = setTimeout(() => { bar.hidden = false; }, PATIENCE);
  }
  function stop() {
    running = Math.max(0, running - 1);
    if (running) return;
    clearTimeout(timer);
    bar.hidden = true;
  }

  document.addEventListener("htmx:beforeRequest", start);
  document.addEventListener("htmx:afterRequest", stop);
  document.addEventListener("submit", (event) => {
    if (!event.defaultPrevented) start();
  });
  document.addEventListener("click", (event) => {
    if (!event.target.closest("a[data-slow]") || event.ctrlKey || event.metaKey || event.shiftKey) return;
    start();
    // A link that turns out to be a download never leaves the page, and nobody says when it is there.
    setTimeout(stop, LONGEST);
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) { running = 0; stop(); }
  });
}
