"""Tap → durable in both stores and painted suggestion, on a throttled phone."""

from __future__ import annotations

import random
import time
from pathlib import Path

from playwright.sync_api import CDPSession, Page

PROBE = (Path(__file__).parent / "probe.js").read_text()
THROTTLE = 6
PAUSE_MS = (150, 400)
FINGER_DOWN_S = 0.08
KINDS = ("correct", "late", "early")
WEIGHTS = (0.86, 0.07, 0.07)
# A page with one button that draws at once and keeps nothing: no app here starts or answers faster.
FLOOR = """<!doctype html><meta name="viewport" content="width=device-width">
<button class="mark" data-testid="mark-correct" style="width:300px;height:300px">0</button>
<script>
const button = document.querySelector("button");
button.onpointerup = () => { button.dataset.last = button.textContent++; };
</script>"""


def throttled(page: Page) -> CDPSession:
    """Slow the page's processor down."""
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
    return session


def tap(session: CDPSession, x: float, y: float) -> None:
    """A finger down and, as a finger does, up a while later; nothing of it runs in the page."""
    finger = [{"x": x, "y": y}]
    session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": finger})
    time.sleep(FINGER_DOWN_S)
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def taps(
    page: Page, session: CDPSession, times: int, seed: int, kinds: tuple[str, ...] = KINDS
) -> list[list[float]]:
    """Mark cues on the strip, faster than any coach; each tap's four moments (see probe.js)."""
    chance = random.Random(seed)
    places = {}
    for kind in kinds:
        if page.get_by_test_id(f"mark-{kind}").is_disabled():
            continue
        box = page.get_by_test_id(f"mark-{kind}").bounding_box()
        assert box is not None
        places[kind] = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    start = page.evaluate("cueLadderTaps.length")
    for _ in range(times):
        kind = chance.choices(list(places), WEIGHTS[: len(places)])[0]
        tap(session, *places[kind])
        # asking the page now would be work in the way of what is measured
        page.wait_for_timeout(chance.uniform(*PAUSE_MS))
    found: list[list[float]] = []
    for _ in range(100):
        found = page.evaluate("cueLadderTaps")[start:]
        if len(found) == times:
            return found
        page.wait_for_timeout(100)
    raise RuntimeError(f"of {times} taps {len(found)} were shown")


# what each of a tap's four moments ends
STEPS = ("heard of", "kept in both stores", "a frame began", "painted")


def percentiles(times: list[float]) -> tuple[float, float, float]:
    """The 50th, 95th and 99th."""
    ordered = sorted(times)

    def at(share: float) -> float:
        return ordered[min(len(ordered) - 1, int(share * len(ordered)))]

    return at(0.50), at(0.95), at(0.99)
