"""A coach's hands in any engine: what the stories do. Not a test module."""

from __future__ import annotations

from typing import Any

from seed_demo.club import PASSPHRASE
from tests.browser.database import read
from tests.browser.engines.engine import Engine
from tests.browser.evening import has_fetched
from tests.browser.strip import READ_DRILL
from tests.patience import until

# A test taps faster than a hand (see `tests/browser/phone.py`).
QUICK_HAND = 'localStorage.setItem("cue-ladder-settings", JSON.stringify({ apart: 0 }))'
IS_QUICK = """() => {
  const { apart } = JSON.parse(localStorage.getItem("cue-ladder-settings") ?? "{}");
  return apart === 0;
}"""


def by(name: str) -> str:
    """The selector of a part by its name in tests."""
    return f'[data-testid="{name}"]'


LAST, SYNC, START = by("last-mark"), by("sync"), '[data-testid^="start-"]'


def sign_in(engine: Engine, url: str, name: str, passphrase: str = PASSPHRASE) -> None:
    """Sign a phone in that knows nothing, and let it fetch all there is."""
    engine.go(f"{url}/icon.svg")
    engine.ask(f"() => {QUICK_HAND}")
    engine.go(url)
    engine.shows("input[name=name]")
    engine.write("input[name=name]", name)
    engine.write("input[name=passphrase]", passphrase)
    engine.tap("form button[type=submit]")
    engine.shows("h1", "Today")
    fetched(engine)
    engine.ask("() => navigator.serviceWorker.ready.then(() => true)")


def quick(engine: Engine) -> None:
    """See to it that touches close together count; a kill may take settings of the day with it."""
    if not engine.ask(IS_QUICK):
        engine.ask(f"() => {QUICK_HAND}")
        engine.go(str(engine.ask("() => location.href")))


def fetched(engine: Engine) -> None:
    """Wait until the phone holds all that the server has, in its second copy, too."""
    until(lambda: has_fetched(engine.ask), f"all there is to fetch in {engine.name}")


def open_lesson(engine: Engine, slug: str = READ_DRILL) -> str:
    """Start the next lesson of the list, on a drill; its id."""
    quick(engine)
    engine.tap(START)
    until(lambda: engine.has(by("strip")) or engine.has(by("start-without")), "the strip")
    if engine.has(by("start-without")):  # no consent is noted for them
        engine.tap(by("start-without"))
    choose(engine, slug)
    return lesson_of(engine)


def choose(engine: Engine, slug: str) -> None:
    """Choose a drill on the strip, agreeing to the caution where it comes up."""
    engine.shows(by("strip"))
    until(lambda: engine.has("dialog[open]") or engine.has(by("pad")), "the strip's first drill")
    _agree(engine)
    if not engine.has("dialog[open]"):
        engine.tap(by("drill-pick"))
    choice = by(f"drill-{slug}")
    # the list is there before its sheet is opened over the page
    until(lambda: engine.has("dialog[open]") and engine.has(choice), f"the drill {slug}")
    if not engine.ask("(css) => document.querySelector(css).checkVisibility()", choice):
        engine.tap(f"{by('all-drills')} summary")
    engine.tap(choice)
    engine.gone("dialog[aria-label='Choose a drill']")
    _agree(engine)
    engine.shows(f"{by('mark-correct')}:enabled")


def _agree(engine: Engine) -> None:
    ready = f"{by('mark-correct')}:enabled"
    until(lambda: engine.has(by("care-agree")) or engine.has(ready), "the caution, or the marks")
    if engine.has(by("care-agree")):
        engine.tap(by("care-agree"))
        engine.gone(by("care-agree"))


def lesson_of(engine: Engine) -> str:
    """The lesson on the strip."""
    return str(engine.ask("() => location.pathname.split('/').pop()"))


def fencer_of(engine: Engine, lesson: str) -> str:
    """Whose lesson it is, by id."""
    return str(next(e["fencer"] for e in events(engine, lesson) if "fencer" in e))


def last_shown(engine: Engine) -> str | None:
    """The mark the strip names as the last one, by id."""
    return engine.ask("(css) => document.querySelector(css)?.dataset.last ?? null", LAST)


def mark(engine: Engine, *kinds: str) -> list[str]:
    """Press marks, each once the one before is shown; the ids shown."""
    shown = []
    for kind in kinds:
        before = last_shown(engine)
        engine.tap(by(f"mark-{kind}"))
        shown.append(next_shown(engine, before))
    return shown


def next_shown(engine: Engine, before: str | None) -> str:
    """Wait for the screen to show another mark than before; its id."""
    return str(
        until(
            lambda: (now := last_shown(engine)) != before and now,
            f"a mark on the screen in {engine.name}",
        )
    )


def events(engine: Engine, lesson: str) -> list[dict[str, Any]]:
    """Every event the phone's database keeps of a lesson."""
    [found] = read(engine.ask, ("events", "getAll", lesson, "lesson"))
    return [each["event"] for each in found]


def kept(engine: Engine, lesson: str) -> list[dict[str, Any]]:
    """The marks the phone's database keeps of a lesson, in order."""
    return sorted(
        (e for e in events(engine, lesson) if e["type"] == "cue_marked"), key=lambda e: e["n"]
    )


def all_sent(engine: Engine) -> None:
    """Wait until nothing unsent is left on the phone."""
    until(lambda: engine.value(SYNC, "data-unsent") == "0", f"all sent in {engine.name}")


def back_online(engine: Engine) -> None:
    """What a phone is told when its network is there again."""
    engine.ask("() => void dispatchEvent(new Event('online'))")
