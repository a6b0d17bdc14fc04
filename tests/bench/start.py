"""Cold offline start to ready-to-tap: a new browser process, no server, a throttled page."""

from __future__ import annotations

from tests.bench.taps import throttled
from tests.browser.phone import Phone

READY = """(() => {
  const frame = new MessageChannel();
  frame.port1.onmessage = () => {
    globalThis.cueLadderReady = performance.now();
  };
  const watch = new MutationObserver(() => {
    const ready = document.querySelector(
      "[data-testid^=start-], [data-testid^=go-on-], [data-testid=mark-correct]",
    );
    if (ready === null) return;
    watch.disconnect();
    requestAnimationFrame(() => frame.port2.postMessage(null));
  });
  watch.observe(document, { subtree: true, childList: true });
})();"""


# The page is there; the first script (stores, language); the app; a start button or marks painted.
STEPS = ("the page", "the first script", "the app", "ready")
MOMENTS = """() => {
  const came = (name) => Math.max(0, ...performance.getEntriesByType("resource")
    .filter((one) => one.name.includes(`/assets/${name}-`)).map((one) => one.responseEnd));
  const page = performance.getEntriesByType("navigation")[0].responseEnd;
  return [page, came("door") || page, came("app") || page, globalThis.cueLadderReady];
}"""


def cold_starts(phone: Phone, path: str, times: int = 5) -> list[list[float]]:
    """The moments (`STEPS`) of so many starts, the quickest first."""
    return sorted((cold_start(phone, path) for _ in range(times)), key=lambda moments: moments[-1])


def cold_start(phone: Phone, path: str) -> list[float]:
    """Milliseconds from opening `path` until each of `STEPS`."""
    phone.start_blank()
    context, page = phone.context, phone.page
    context.add_init_script(READY)
    throttled(page)
    page.goto(phone.url + path, wait_until="commit")
    try:
        for _ in range(300):
            if page.evaluate("globalThis.cueLadderReady ?? null") is not None:
                return page.evaluate(MOMENTS)
            page.wait_for_timeout(200)
    finally:
        phone.close()
    raise RuntimeError(f"{path} was never ready")
