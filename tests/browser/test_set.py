"""Marks after a set: tapped in a row, changed, seen through, and kept one by one in order."""

import pytest
from playwright.sync_api import expect

from tests.browser.hands import moved, stored_marks
from tests.browser.strip import (
    MIXED_DRILL,
    READ_DRILL,
    all_sent,
    choose,
    events,
    mark,
    open_lesson,
    standing_marks,
)

pytestmark = pytest.mark.browser


def open_set(page):
    page.get_by_test_id("more").click()
    page.get_by_test_id("more-set").click()
    sheet = page.get_by_role("dialog", name="Marks after a set")
    expect(sheet).to_be_visible()
    return sheet


def kinds(sheet):
    return sheet.locator("li[data-mark-was]").evaluate_all(
        "(rows) => rows.map((row) => row.dataset.markWas)"
    )


def test_a_set_is_changed_before_it_is_kept_and_then_kept_in_order(salle):
    page = salle.open()
    lesson = open_lesson(page, READ_DRILL, number=1)
    mark(page, "correct")
    sheet = open_set(page)
    for kind in ("correct", "late", "early", "correct"):
        sheet.get_by_test_id(f"mark-{kind}").click()
    assert kinds(sheet) == ["correct", "late", "early", "correct"]
    # the second was right after all, one was forgotten before the third, the last never was
    sheet.get_by_test_id("set-2").get_by_role("button").first.click()
    sheet.get_by_test_id("mark-correct").click()
    sheet.get_by_test_id("set-3").get_by_role("button").first.click()
    sheet.get_by_test_id("set-before").click()
    expect(sheet.get_by_test_id("set-next")).to_contain_text("before action 3")
    sheet.get_by_test_id("mark-late").click()
    assert kinds(sheet) == ["correct", "correct", "late", "early", "correct"]
    sheet.get_by_test_id("set-5").get_by_role("button").first.click()
    sheet.get_by_test_id("set-remove").click()
    assert kinds(sheet) == ["correct", "correct", "late", "early"]
    assert len(standing_marks(page)) == 1, "nothing is kept before it is said"
    # a look at something else loses nothing
    page.keyboard.press("Escape")
    sheet = open_set(page)
    assert kinds(sheet) == ["correct", "correct", "late", "early"]
    sheet.get_by_test_id("set-keep").click()
    expect(sheet).to_be_hidden()
    all_sent(page)
    kept = stored_marks(salle, lesson)
    assert [one["mark"] for one in kept] == ["correct"] * 3 + ["late", "early"]
    numbers = [one["n"] for one in events(page) if one["type"] == "cue_marked"]
    assert sorted(numbers) == list(range(min(numbers), min(numbers) + 5))
    assert kinds(open_set(page)) == []


@pytest.mark.thorough
def test_a_set_that_moves_in_its_middle_says_so_and_records_the_rung_it_was_given_at(salle):
    page = salle.open()
    lesson = open_lesson(page, READ_DRILL, number=1)
    mark(page, "correct", 18)
    here = standing_marks(page)[-1]["place"]
    sheet = open_set(page)
    for _ in range(5):
        sheet.get_by_test_id("mark-correct").click()
    said = sheet.get_by_test_id("set-preview")
    expect(said).to_contain_text("Action 2: One step on")
    expect(said).to_contain_text("The last 3 were given before that move")
    sheet.get_by_test_id("set-keep").click()
    expect(sheet).to_be_hidden()
    expect(page.get_by_test_id("progress")).to_contain_text("3 of")
    all_sent(page)
    kept = stored_marks(salle, lesson)
    assert len(kept) == 23
    assert {one["place"] for one in kept} == {here}
    # the next mark is one at the new rung
    mark(page, "correct")
    assert standing_marks(page)[-1]["place"] != here


@pytest.mark.thorough
def test_a_set_that_moves_can_be_kept_up_to_the_move_alone(salle):
    page = salle.open()
    open_lesson(page, READ_DRILL, number=1)
    mark(page, "correct", 18)
    sheet = open_set(page)
    for kind in ("correct", "correct", "late"):
        sheet.get_by_test_id(f"mark-{kind}").click()
    sheet.get_by_test_id("set-keep-first").click()
    expect(sheet).to_be_hidden()
    moved(page, "climb")
    assert [one["mark"] for one in standing_marks(page)] == ["correct"] * 20
    expect(page.get_by_test_id("progress")).to_contain_text("0 of")


def louder(page):
    """To a rung on which loud differs from soft."""
    page.get_by_test_id("cue-open").click()
    page.get_by_test_id("cue-rung").click()
    page.locator("input[name=heat]").nth(3).check()
    page.get_by_test_id("rung-save").click()
    expect(page.get_by_test_id("loudness")).to_be_visible()


@pytest.mark.thorough
def test_in_a_mixed_drill_each_mark_goes_with_the_cue_proposed_or_really_given(salle):
    page = salle.open()
    lesson = open_lesson(page, MIXED_DRILL, number=1)
    choose(page, MIXED_DRILL)
    louder(page)
    now = page.get_by_test_id("give").inner_text().replace("\n", ", ").capitalize()
    sheet = open_set(page)
    rows = [sheet.get_by_test_id(f"set-{n}").locator("small").inner_text() for n in range(1, 6)]
    assert rows[0] == now, "the set begins with what the strip proposes"
    for _ in range(5):
        sheet.get_by_test_id("mark-correct").click()
    # the coach gave the second the other way round
    sheet.get_by_test_id("set-2").get_by_role("button").first.click()
    sheet.get_by_test_id("set-other").click()
    sheet.get_by_test_id("set-loudness").click()
    sheet.get_by_test_id("set-keep").click()
    expect(sheet).to_be_hidden()
    all_sent(page)
    kinds = {"Answer": "attack", "Leave": "decoy"}
    told = [(kinds[row.split(", ")[0]], row.endswith("loud")) for row in rows]
    given, loud = told[1]
    told[1] = ("decoy" if given == "attack" else "attack", not loud)
    assert [(one["given"], one["loud"]) for one in stored_marks(salle, lesson)] == told
