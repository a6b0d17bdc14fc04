"""A second person marks the same lesson on a second phone, with and without a network."""

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.evening import wait_until_fetched
from tests.browser.pair import address_shown, number, see
from tests.browser.phone import Guest, frames, page_until
from tests.browser.strip import (
    all_sent,
    choose,
    events,
    mark,
    open_lesson,
    screen,
    sign_in,
    standing_marks,
)

pytestmark = pytest.mark.browser
DRILL, OTHER_DRILL = "distance-parry-late", "octave-late"
COACH = ["correct"] * 9 + ["late"] * 3 + ["early"] * 2
# alike on 11 of 14: two corrects were late to the other, one late was correct
SECOND = ["correct"] * 7 + ["late"] * 2 + ["late"] * 2 + ["correct"] + ["early"] * 2


@pytest.fixture
def second(salle, chrome):
    """Another coach's phone, signed in, at the same server."""
    other = Guest(chrome, salle.phone.url)
    sign_in(other.start(), salle.other, PASSPHRASE)
    wait_until_fetched(other.page)
    yield other
    other.close()


def sent_lesson(salle, second, marks=0):
    """A lesson with so many marks, all sent, in the second phone's list: both pages, and its id."""
    page, two = salle.open(), second.page
    lesson = open_lesson(page, DRILL)
    mark(page, "correct", marks)
    all_sent(page)
    two.goto(salle.phone.url)
    expect(two.get_by_test_id(f"watch-{lesson}")).to_be_visible()
    return page, two, lesson


def test_two_phones_in_a_cellar_mark_one_lesson_and_agree_as_worked_out_by_hand(salle, second):
    page = salle.open()
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    for each in (page, second.page):
        each.context.set_offline(True)
    lesson = open_lesson(page, DRILL)
    address = address_shown(page)
    assert address.startswith(f"{salle.phone.url}/watch/")

    # the camera opens the address on the second phone; no server answers either of them
    second.page.goto(address)
    expect(second.page.get_by_test_id("watch")).to_be_visible()
    assert number(second.page) == 1
    see(second.page, *SECOND[:5], "early")
    second.page.get_by_test_id("unsee").click()
    expect(second.page.get_by_test_id("number-now")).to_have_text("Cue 6")
    second.page.reload()
    assert number(second.page) == 6
    see(second.page, *SECOND[5:])
    for kind in COACH:
        mark(page, kind)
    expect(page.get_by_test_id("cue-number")).to_have_text("Cue 15")
    stood = screen(page)

    # the second phone finds the network first: its marks wait for the coach's lesson
    second.page.context.set_offline(False)
    second.page.reload()
    expect(second.page.get_by_test_id("early")).to_contain_text("wait here")
    expect(second.page.get_by_test_id("sync")).not_to_have_attribute("data-unsent", "0")
    page.context.set_offline(False)
    page.reload()
    all_sent(page)
    second.page.reload()
    all_sent(second.page)
    assert not [e for e in events(second.page, lesson) if e.get("refused")]

    # the coach's standing has not moved, and After lays the two side by side
    page.reload()
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    assert screen(page) == stood | {"move": screen(page)["move"]}
    page.goto(f"{salle.phone.url}/after/{lesson}")
    told = page.get_by_test_id("observer")
    expect(told).to_contain_text("14 cues were marked by both.")
    told.locator("details").last.locator("summary").click()
    # fourteen cues are too few for a kappa
    expect(page.get_by_test_id("kappa")).to_contain_text("Kappa is given from 30 cues on")
    expect(page.get_by_test_id("kappa")).to_contain_text("Agreed on 11 of 14")
    told.locator("details").first.locator("summary").click()
    differ = told.locator("details").first.locator("li")
    expect(differ).to_have_count(3)
    expect(differ.nth(0)).to_contain_text("Cue 8")
    expect(differ.nth(0)).to_contain_text("the coach correct, the other late")
    expect(differ.nth(2)).to_contain_text("Cue 12")


@pytest.mark.thorough
def test_with_a_network_the_lesson_is_in_the_list_and_the_number_can_be_set(salle, second):
    page = salle.open()
    lesson = open_lesson(page, DRILL)
    mark(page, "correct", 4)
    page.get_by_test_id("undo").click()
    expect(page.get_by_role("dialog")).to_be_hidden()
    all_sent(page)
    two = second.page
    two.goto(salle.phone.url)
    two.get_by_test_id(f"watch-{lesson}").click()
    # as far as the coach's phone has sent and this one has fetched: three stand, the fourth is next
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 4")
    two.get_by_test_id("number-more").click()
    two.get_by_test_id("number-more").click()
    two.get_by_test_id("number-less").click()
    see(two, "late")
    assert number(two) == 6
    two.get_by_test_id("drill-pick").click()
    two.get_by_test_id(f"drill-{OTHER_DRILL}").click()
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 1")
    see(two, "correct")
    all_sent(two)
    own = [e for e in events(two, lesson) if e["type"] == "cue_marked" and "number" in e]
    assert [(e["number"], e["mark"]) for e in own] == [(5, "late"), (1, "correct")]
    # few cues: no share is given, and it is said
    mark(page, "correct", 2)
    all_sent(page)
    page.goto(f"{salle.phone.url}/after/{lesson}")
    expect(page.get_by_test_id("observer")).to_contain_text("Too early to say")


@pytest.mark.thorough
def test_who_cannot_ask_sets_the_number_before_the_first_mark(salle, second):
    _, two, lesson = sent_lesson(salle, second, marks=3)
    two.route("**/api/lessons/*/cues", lambda route: route.abort())
    two.get_by_test_id(f"watch-{lesson}").click()
    two.get_by_test_id("drill-pick").click()
    two.get_by_test_id(f"drill-{DRILL}").click()
    expect(two.get_by_test_id("seen")).to_contain_text("is not known here")
    expect(two.get_by_test_id("number-now")).to_have_text("Cue …")
    expect(two.get_by_test_id("mark-correct")).to_be_disabled()
    for _ in range(4):
        two.get_by_test_id("number-more").click()
    see(two, "correct")
    own = [e for e in events(two, lesson) if "number" in e]
    assert [(e["number"], e["mark"]) for e in own] == [(4, "correct")]


@pytest.mark.thorough
def test_who_watches_follows_the_coach_until_their_own_first_mark(salle, second):
    page, two, lesson = sent_lesson(salle, second)
    two.goto(f"{salle.phone.url}/watch/{lesson}")
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 1")
    mark(page, "correct", 2)
    choose(page, OTHER_DRILL)
    mark(page, "correct", 3)
    all_sent(page)
    other = page.get_by_test_id("drill-pick").inner_text()

    fetch_again(two)
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 4")
    assert two.get_by_test_id("drill-pick").inner_text() == other
    see(two, "late")
    mark(page, "correct", 2)
    choose(page, DRILL)
    mark(page, "correct")
    all_sent(page)
    fetch_again(two)
    two.reload()
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 5")
    assert two.get_by_test_id("drill-pick").inner_text() == other


# Holds a transaction that others have to wait for, until `letGo` is set.
BUSY = """() => new Promise((begun, failed) => {
  const opening = indexedDB.open("cue-ladder");
  opening.onerror = () => failed(opening.error);
  opening.onsuccess = () => {
    const tx = opening.result.transaction("lessons", "readwrite");
    const again = () => {
      begun();
      if (globalThis.letGo) opening.result.close();
      else tx.objectStore("lessons").count().onsuccess = again;
    };
    again();
  };
})"""


@pytest.mark.thorough
def test_a_number_set_by_hand_is_not_undone_by_an_answer_that_was_on_its_way(salle, second):
    _, two, lesson = sent_lesson(salle, second, marks=3)
    two.get_by_test_id(f"watch-{lesson}").click()
    expect(two.get_by_test_id("mark-correct")).to_be_enabled()
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 4")

    # the coach's number is told again, and the answer waits for the phone's own database
    asked = []
    two.route(
        "**/api/lessons/*/cues",
        lambda route: route.continue_() if asked else asked.append(route),
    )
    two.context.set_offline(True)
    two.context.set_offline(False)
    page_until(two, lambda: asked, "the question where the coach is")
    two.evaluate(BUSY)
    with two.expect_response(lambda answer: "/cues" in answer.url):
        asked[0].continue_()
    frames(two)
    two.get_by_test_id("number-less").click()
    frames(two)
    two.evaluate("() => { globalThis.letGo = true; }")
    events(two, lesson)  # answered after what had to wait
    frames(two)
    expect(two.get_by_test_id("number-now")).to_have_text("Cue 3")
    see(two, "late")
    all_sent(two)
    assert [e["number"] for e in events(two, lesson) if "number" in e] == [3]


def fetch_again(page):
    """What a phone does when its network comes back; waits until it has fetched."""
    page.context.set_offline(True)
    with page.expect_response(lambda answer: "/api/events" in answer.url and answer.ok):
        page.context.set_offline(False)


@pytest.mark.thorough
def test_two_coaches_on_one_lesson_by_mistake_do_not_mix(salle, second):
    page, two, lesson = sent_lesson(salle, second, marks=3)
    for way in ("strip", "after"):
        two.goto(f"{salle.phone.url}/{way}/{lesson}")
        expect(two.get_by_test_id("not-here")).to_contain_text("another coach's")
    two.get_by_role("link", name="Watch it").click()
    expect(two.get_by_test_id("watch")).to_be_visible()
    see(two, "late", "late", "late")
    all_sent(two)
    page.reload()
    all_sent(page)
    expect(page.get_by_test_id("progress")).to_contain_text("3 of")
    coach = page.evaluate("() => location.pathname.split('/').pop()")
    assert coach == lesson
    assert [m["mark"] for m in standing_marks(page) if "number" not in m] == ["correct"] * 3

    # one's own lesson is not watched: those marks would be one's own
    page.goto(f"{salle.phone.url}/watch/{lesson}")
    expect(page.get_by_test_id("no-watch")).to_contain_text("your own lesson")
    page.goto(f"{salle.phone.url}/watch/what-is-this")
    expect(page.get_by_test_id("no-watch")).to_contain_text("holds no lesson")
    page.goto(f"{salle.phone.url}/strip/{lesson}")
    choose(page, OTHER_DRILL)
