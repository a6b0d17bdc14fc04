"""What an engine does not do for a page, and what the app does in its place."""

import pytest

from tests.browser.engines.coach import SYNC, all_sent, by, mark, open_lesson
from tests.patience import until

pytestmark = pytest.mark.browser

HEAR = """() => {
  globalThis.heard = [];
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (when) {
    heard.push(Math.round(this.frequency.value));
    return start.call(this, when);
  };
}"""


def test_a_phone_that_cannot_vibrate_sounds_each_mark_and_says_that_the_screen_may_go_dark(salle):
    engine = salle.engine
    open_lesson(engine)
    vibrates = engine.ask("() => 'vibrate' in navigator")
    assert vibrates == (engine.name == "Chromium")
    if engine.name != "Firefox":  # what is watched there is not the page's own
        engine.ask(HEAR)
        mark(engine, "correct")
        if vibrates:
            mark(engine, "correct")
            assert engine.ask("() => heard") == [], "felt, not heard"
        else:
            # a tone once the tones are loaded, for which no mark waits
            until(lambda: mark(engine, "correct") and engine.ask("() => heard.length"), "a tone")
    engine.tap(by("more"))
    engine.shows(by("note"))
    awake = engine.ask("() => 'wakeLock' in navigator")
    if not awake:  # in WebKit up to 2.50
        engine.shows(by("goes-dark"), "does not keep the screen on")


def test_a_browser_that_forgets_asks_for_the_home_screen_and_reminds_of_what_is_not_sent(salle):
    engine = salle.engine
    forgets = engine.name == "WebKit"
    open_lesson(engine)
    mark(engine, "correct")
    assert not engine.has(by("home-screen")), "never on the strip"
    engine.tap(by("more"))
    engine.tap(by("more-finish"))
    engine.tap(by("end-lesson"))
    engine.tap(by("to-today"))
    all_sent(engine)
    engine.shows(by("given"))
    if forgets:
        engine.shows(by("home-screen"), "seven days")
        engine.tap(by("home-screen-away"))
        engine.gone(by("home-screen"))
    salle.server.stop()
    open_lesson(engine)
    mark(engine, "correct")
    engine.go(salle.url)
    until(lambda: engine.value(SYNC, "data-unsent") not in (None, "0"), "what is not sent")
    engine.shows(by("given"))
    if forgets:
        engine.shows(by("unsent-reminder"), "seven days")
        engine.shows(by("reminder-file"))
    else:
        assert not engine.has(by("unsent-reminder"))
    salle.server.start()
    engine.go(salle.url)
    all_sent(engine)
    engine.shows(by("given"))
    assert not engine.has(by("home-screen")), "asked once, and remembered"
    engine.gone(by("unsent-reminder"))
    engine.go(f"{salle.url}/settings")
    engine.shows(by("sending"))
    assert ("Add to Home Screen" in engine.text(by("sending"))) == forgets


TYPED = """() => ["input[name=nickname]", "textarea"].map(
  (css) => document.querySelector(css).value)"""


def test_what_was_typed_stands_again_after_a_swipe_back(salle):
    engine = salle.engine
    engine.ask("() => document.querySelector(\"nav.places a[href='/fencers']\").click()")
    engine.tap(by("add-fencer"))
    engine.shows("input[name=nickname]")
    engine.write("input[name=nickname]", "Tilda")
    engine.write("textarea[name=note]", "Left foot first.")
    engine.ask("() => history.back()")
    engine.gone("input[name=nickname]")
    engine.tap(by("add-fencer"))
    engine.shows("input[name=nickname]")
    assert engine.ask(TYPED) == ["Tilda", "Left foot first."]
    engine.go(f"{salle.url}/fencers/new")
    engine.shows("input[name=nickname]")
    assert engine.ask(TYPED) == ["Tilda", "Left foot first."]
    # who cancels means it
    engine.tap(by("cancel-fencer"))
    engine.tap(by("add-fencer"))
    engine.shows("input[name=nickname]")
    assert engine.ask(TYPED) == ["", ""]
