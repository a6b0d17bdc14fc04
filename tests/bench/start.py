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


def cold_start(phone: Phone, path: str) -> float:
    """Milliseconds from opening `path` until a start button or the marks are painted."""
    phone.start_blank()
    context, page = phone.context, phone.page
    context.add_init_script(READY)
    throttled(page)
    page.goto(phone.url + path, wait_until="commit")
    try:
        for _ in range(300):
            found = page.evaluate("globalThis.cueLadderReady ?? null")
            if found is not None:
                return found
            page.wait_for_timeout(200)
    finally:
        phone.close()
    raise RuntimeError(f"{path} was never ready")
