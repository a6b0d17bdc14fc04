"""The main stories, written once, in each engine a phone may run."""

import pytest

from tests.browser.engines.coach import (
    LAST,
    all_sent,
    back_online,
    by,
    choose,
    fencer_of,
    kept,
    last_shown,
    lesson_of,
    mark,
    next_shown,
    open_lesson,
    sign_in,
)
from tests.browser.hands import stored_marks
from tests.browser.strip import MIXED_DRILL, READ_DRILL
from tests.browser.test_versions import deploy
from tests.patience import until

pytestmark = pytest.mark.browser


def test_a_lesson_marked_without_a_server_outlives_a_hard_kill_and_reaches_the_progress_page(salle):
    engine = salle.engine
    lesson = open_lesson(engine)
    all_sent(engine)
    salle.server.stop()
    shown = mark(engine, "correct", "late", "correct", "early")
    drill = engine.text(f"{by('drill-pick')} span:not(.unseen)")
    engine.kill()

    engine.start()
    engine.go(f"{salle.url}/strip/{lesson}")
    engine.shows(f"{by('mark-correct')}:enabled")
    assert last_shown(engine) == shown[-1]
    assert [one["id"] for one in kept(engine, lesson)] == shown
    assert engine.value(by("sync"), "data-unsent") == "4"
    shown += mark(engine, "correct")

    salle.server.start()
    back_online(engine)
    all_sent(engine)
    assert [one["id"] for one in stored_marks(salle, lesson)] == shown
    engine.tap(by("more"))
    engine.tap(by("more-finish"))
    engine.tap(by("end-lesson"))
    engine.shows(by("after"))
    all_sent(engine)
    page = progress_link(engine, salle, lesson)
    engine.go(page)
    engine.shows("article.drill", drill)
    engine.shows("body", "nobody is compared with anybody")


def progress_link(engine, salle, lesson):
    """Make a link to the progress page of a lesson's fencer; its address."""
    engine.go(f"{salle.url}/fencers/{fencer_of(engine, lesson)}/record")
    engine.tap(by("link-make"))
    engine.shows(by("link-address"))
    return engine.ask("(css) => document.querySelector(css).value", by("link-address"))


def test_a_second_person_marks_along_on_a_phone_of_their_own(salle):
    engine = salle.engine
    lesson = open_lesson(engine)
    mark(engine, "correct", "correct", "late")
    all_sent(engine)
    sign_in(engine, salle.second, salle.other)
    engine.tap(by(f"watch-{lesson}"))
    engine.shows(by("number-now"), "Cue 4")
    engine.tap(by("number-less"))
    engine.shows(by("number-now"), "Cue 3")
    salle.server.stop()
    for number, kind in ((3, "late"), (4, "correct")):
        engine.shows(by("number-now"), f"Cue {number}")
        engine.tap(by(f"mark-{kind}"))
    engine.shows(by("number-now"), "Cue 5")
    engine.go(f"{salle.second}/watch/{lesson}")
    engine.shows(by("number-now"), "Cue 5")
    salle.server.start()
    back_online(engine)
    all_sent(engine)
    seen = [one for one in stored_marks(salle, lesson) if "number" in one]
    assert [(one["number"], one["mark"]) for one in seen] == [(3, "late"), (4, "correct")]
    # the coach's own count has not moved
    engine.go(f"{salle.url}/strip/{lesson}")
    engine.shows(LAST, "Late")
    own = [one for one in stored_marks(salle, lesson) if "number" not in one]
    assert last_shown(engine) == own[-1]["id"]


def test_a_set_is_entered_after_it_and_kept_in_order(salle):
    engine = salle.engine
    lesson = open_lesson(engine)
    engine.tap(by("more"))
    engine.tap(by("more-set"))
    engine.shows(by("set"))
    given = ["correct", "late", "early", "correct", "correct"]
    for number, kind in enumerate(given, 1):
        engine.tap(f"dialog {by(f'mark-{kind}')}")
        engine.shows(f"{by(f'set-{number}')}[data-mark-was={kind}]")
    assert kept(engine, lesson) == [], "nothing is kept before it is said"
    engine.tap(by("set-keep"))
    engine.gone("dialog")
    engine.shows(LAST, "Correct")
    all_sent(engine)
    assert [one["mark"] for one in stored_marks(salle, lesson)] == given


def test_two_fencers_in_turn_keep_their_own_marks_through_a_reload_without_a_server(salle):
    engine = salle.engine
    first = open_lesson(engine)
    salle.server.stop()
    mark(engine, "correct", "correct")
    engine.tap(by("more"))
    engine.tap(by("second-fencer"))
    engine.tap(f"dialog {'[data-testid^=second-]'}:not({by('second-fencer')})")
    engine.gone("dialog[aria-label='Who takes turns?']")
    until(lambda: lesson_of(engine) != first, "the second fencer's lesson")
    choose(engine, MIXED_DRILL)
    second = lesson_of(engine)
    mark(engine, "correct")
    switch(engine, first)
    mark(engine, "late")
    engine.go(f"{salle.url}/strip/{second}")
    switch(engine, first)
    mark(engine, "correct")
    assert [one["mark"] for one in kept(engine, first)] == ["correct", "correct", "late", "correct"]
    assert [one["mark"] for one in kept(engine, second)] == ["correct"]
    salle.server.start()
    back_online(engine)
    all_sent(engine)
    for lesson in (first, second):
        stored = [one["id"] for one in stored_marks(salle, lesson)]
        assert stored == [one["id"] for one in kept(engine, lesson)]


def switch(engine, lesson):
    """One press on the other name."""
    engine.tap(by(f"turn-{fencer_of(engine, lesson)}"))
    until(lambda: lesson_of(engine) == lesson, "the other fencer's lesson")
    engine.shows(f"{by('mark-correct')}:enabled")


def test_a_new_version_is_offered_between_lessons_and_taken_whole(salle, second_build):
    engine = salle.engine
    lesson = open_lesson(engine)
    shown = mark(engine, "correct")
    deploy(second_build, salle.static)
    engine.ask("() => void document.dispatchEvent(new Event('visibilitychange'))")
    waits = "() => navigator.serviceWorker.getRegistration().then((one) => !!one.waiting)"
    until(lambda: engine.ask(waits), f"the new version in {engine.name}")
    assert not engine.has(by("update")), "never in mid-lesson"
    shown += mark(engine, "late")
    engine.go(f"{salle.url}/after/{lesson}")
    engine.tap(by("end-lesson"))
    engine.tap(by("to-today"))
    engine.tap(f"{by('update')} button")
    engine.gone(by("update"))
    until(lambda: settings_say(engine, "Version of 2031-01-01"), f"the new one in {engine.name}")
    assert [one["id"] for one in kept(engine, lesson)] == shown


def settings_say(engine, text):
    """Whether the settings, opened by a link of the app, say this."""
    if engine.has("nav.places a[href='/settings']"):
        engine.ask("() => document.querySelector(\"nav.places a[href='/settings']\").click()")
    return engine.ask("(text) => document.body.innerText.includes(text)", text)


# What iOS makes of one finger: the pointer's events, the touch's, then a mouse's and a click.
FINGER = """(css) => {
  const mark = document.querySelector(css);
  const at = { bubbles: true, cancelable: true, composed: true, button: 0, detail: 1 };
  const finger = { ...at, pointerId: 7, pointerType: "touch", isPrimary: true };
  const make = (Kind, type, given) => mark.dispatchEvent(new Kind(type, given));
  make(PointerEvent, "pointerdown", { ...finger, buttons: 1 });
  make(Event, "touchstart", at);
  make(PointerEvent, "pointerup", finger);
  make(PointerEvent, "pointerout", finger);
  make(PointerEvent, "pointerleave", finger);
  if (!make(Event, "touchend", at)) return "click held back";
  for (const type of ["mousemove", "mousedown", "mouseup"]) make(MouseEvent, type, at);
  make(MouseEvent, "click", at);
  return "click made";
}"""


def test_one_touch_is_one_mark_whether_or_not_a_click_follows(salle):
    engine = salle.engine
    lesson = open_lesson(engine, READ_DRILL)
    correct = by("mark-correct")
    # what the engine itself makes of a finger, or of a pointer where it can be given none
    for times in (1, 2, 3):
        before = last_shown(engine)
        engine.touch(correct)
        next_shown(engine, before)
        assert len(kept(engine, lesson)) == times
    # what a phone's WebKit makes of one, and the same where the page cannot hold the click back
    for at, script in enumerate((FINGER, FINGER.replace("if (!make", "if (false && !make")), 4):
        before = last_shown(engine)
        assert engine.ask(script, correct) == ("click held back" if at == 4 else "click made")
        next_shown(engine, before)
        mark(engine, "late")
        expected = ["correct"] * 4 + ["late"] + (["correct", "late"] if at == 5 else [])
        assert [one["mark"] for one in kept(engine, lesson)] == expected
