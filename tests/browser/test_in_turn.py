"""Two fencers in turn on one phone: each keeps a place, a proposal and a lesson of their own."""

import pytest
from playwright.sync_api import expect

from tests.browser.strip import (
    MIXED_DRILL,
    READ_DRILL,
    all_sent,
    choose,
    end_lesson,
    events,
    in_turn,
    lesson_of,
    mark,
    open_lesson,
    screen,
)

pytestmark = pytest.mark.browser


def switch(page, lesson):
    """One tap on the other name."""
    page.get_by_test_id("turns").locator("[aria-pressed=false]").first.click()
    page.wait_for_url(f"**/strip/{lesson}")
    expect(page.get_by_test_id("mark-correct")).to_be_visible()


def looks(page):
    """The screen, and what is proposed."""
    said = page.get_by_test_id("give")
    return screen(page), said.inner_text() if said.count() else None


def marks(page, lesson):
    kept = events(page, lesson)
    return [e["mark"] for e in sorted(kept, key=lambda e: e["n"]) if e["type"] == "cue_marked"]


@pytest.fixture
def two(salle):
    """A page with two lessons open, the second on screen, without a network."""
    page = salle.open()
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    page.context.set_offline(True)
    first = open_lesson(page, READ_DRILL)
    mark(page, "correct", 3)
    expect(page.get_by_test_id("beside")).to_have_count(0)
    second = in_turn(page, MIXED_DRILL)
    return page, first, second


def test_a_tap_switches_and_neither_loses_their_place(two):
    page, first, second = two
    expect(page.get_by_test_id("turns").get_by_role("button")).to_have_count(2)
    mark(page, "correct")
    mark(page, "early")
    on_second = looks(page)
    assert on_second[1]
    switch(page, first)
    on_first = looks(page)
    assert "3 of" in on_first[0]["progress"]
    mark(page, "late")
    after_late = looks(page)
    assert after_late != on_first
    switch(page, second)
    assert looks(page) == on_second
    switch(page, first)
    assert looks(page) == after_late
    assert marks(page, first) == ["correct"] * 3 + ["late"]
    assert marks(page, second) == ["correct", "early"]

    # a reload comes back to each as it was
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    expect(page.get_by_test_id("turns")).to_be_visible()
    assert looks(page) == after_late
    switch(page, second)
    assert looks(page) == on_second


@pytest.mark.thorough
def test_a_tap_and_a_switch_at_once_put_the_mark_where_it_was_tapped(two):
    page, first, second = two
    for _ in range(4):
        here = lesson_of(page)
        there = first if here == second else second
        page.evaluate(
            """() => {
              document.querySelector("[data-testid=mark-correct]").click();
              document.querySelector("[data-testid=turns] [aria-pressed=false]").click();
            }"""
        )
        page.wait_for_url(f"**/strip/{there}")
        expect(page.get_by_test_id("mark-correct")).to_be_visible()
    assert marks(page, first) == ["correct"] * 5
    assert marks(page, second) == ["correct"] * 2
    drills = [{e["drill"] for e in events(page, one) if "drill" in e} for one in (first, second)]
    assert len(drills[0]) == len(drills[1]) == 1 and drills[0] != drills[1]


@pytest.mark.thorough
def test_a_wait_begun_for_one_is_not_the_others(two):
    page, first, second = two
    page.get_by_test_id("wait").click()
    expect(page.get_by_test_id("wait")).to_have_attribute("data-ring", "running")
    switch(page, first)
    expect(page.get_by_test_id("wait")).to_have_attribute("data-ring", "idle")
    switch(page, second)
    page.get_by_test_id("given").click()
    switch(page, first)
    mark(page, "correct")
    assert events(page, first)[-1]["given"] == "attack"


@pytest.mark.thorough
def test_in_turn_after_each_cue_when_the_coach_wants_it_so(two):
    page, first, second = two
    page.get_by_test_id("each").click()
    for kind, there in (("correct", first), ("correct", second), ("correct", first)):
        page.get_by_test_id(f"mark-{kind}").click()
        page.wait_for_url(f"**/strip/{there}")
        expect(page.get_by_test_id("mark-correct")).to_be_visible()
    assert marks(page, second) == ["correct"] * 2
    assert marks(page, first) == ["correct"] * 4
    # taking a mark back is no cue: it stays with the fencer
    page.get_by_test_id("undo").click()
    expect(page.get_by_role("dialog")).to_be_hidden()
    assert lesson_of(page) == first


@pytest.mark.thorough
def test_ending_one_lesson_leaves_the_other(two):
    page, first, second = two
    mark(page, "late")
    end_lesson(page)
    expect(page.get_by_test_id("go-on-other")).to_have_attribute("href", f"/strip/{first}")
    page.get_by_test_id("to-today").click()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    page.get_by_role("link", name="Go on").click()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    assert lesson_of(page) == first
    expect(page.get_by_test_id("beside")).to_have_count(0)
    mark(page, "correct")
    choose(page, "octave-late")
    mark(page, "late")
    page.context.set_offline(False)
    page.reload()
    all_sent(page)
    assert [e["type"] for e in events(page, second)][-1] == "lesson_closed"
    assert "lesson_closed" not in [e["type"] for e in events(page, first)]


def test_a_lesson_left_open_ends_when_another_fencers_begins_and_the_coach_is_told(salle):
    page = salle.open()
    first = open_lesson(page, READ_DRILL)
    mark(page, "correct", 2)
    name = page.locator("h1 span").first.inner_text().removesuffix(" ·")
    page.goto(salle.phone.url)
    second = open_lesson(page, READ_DRILL, number=1)
    assert first != second
    expect(page.get_by_test_id("notice")).to_contain_text(f"The lesson with {name} has ended.")
    expect(page.get_by_test_id("turns")).to_have_count(0)
    assert [e["type"] for e in events(page, first)][-1] == "lesson_closed"
    assert marks(page, first) == ["correct", "correct"]
    assert "lesson_closed" not in [e["type"] for e in events(page, second)]
