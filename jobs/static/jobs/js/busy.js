// Anything longer than a second says so.
const PATIENCE = 1000;

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
    if (!event.defaultPrevented && !event.target.matches("[hx-post], [hx-get]")) start();
  });
  // A download never leaves the page, so the browser tells nobody when it is there; fetch does.
  document.addEventListener("click", async (event) => {
    const link = event.target.closest("a[data-slow]");
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    start();
    try {
      const answer = await fetch(link.href, { credentials: "same-origin" });
      const kind = answer.headers.get("Content-Type") || "";
      if (!answer.ok || kind.startsWith("text/html")) {
        location.assign(link.href);
        return;
      }
      save(await answer.blob(), fileName(answer) || link.download || "sheet.pdf");
    } catch {
      location.assign(link.href);
    } finally {
      stop();
    }
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) { running = 0; stop(); }
  });
}

function fileName(answer) {
  const found = /filename="?([^";]+)"?/.exec(answer.headers.get("Content-Disposition") || "");
  return found && found[1];
}

function save(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
