"""A new club's first lesson: from an empty database to what a parent sees, every tap counted."""

import re

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.phone import Guest, page_until
from tests.browser.strip import agree_to_care, all_sent, standing_marks

pytestmark = pytest.mark.browser
# What the way took when it was measured: a bar against growth.
MOST = 36
NOTE = "Waits for the whole step now."


class Hands:
    """Taps and fields, counted as a coach would."""

    def __init__(self):
        self.used = []

    def tap(self, target):
        target.click()
        self.used.append(str(target))

    def fill(self, target, text):
        target.fill(text)
        self.used.append(str(target))


def test_a_new_head_coach_gives_a_first_lesson_and_a_parent_reads_of_it(empty, chrome):
    """From the printed link to the progress link: 36 taps and fields, the ten marks included."""
    phone, link = empty
    hands = Hands()
    page = phone.start_blank()
    page.goto(link)
    set_up(page, hands)
    add_fencer(page, hands)
    book_today(page, hands)
    give_the_lesson(page, hands)
    look_after_it(page, hands)
    address = make_link(page, hands)
    assert len(hands.used) <= MOST, f"{len(hands.used)}:\n" + "\n".join(hands.used)

    parent = Guest(chrome, phone.url)
    try:
        theirs = parent.start_blank()
        theirs.goto(address)
        see_as_parent(theirs)
    finally:
        parent.close()


def set_up(page, hands):
    hands.fill(page.get_by_label("Name of the club"), "Halle Nord Fencing Circle")
    hands.fill(page.get_by_label("Your name"), "Ansgar Vell")
    hands.fill(page.get_by_label("Passphrase"), PASSPHRASE)
    hands.tap(page.get_by_role("button", name="Set up"))
    expect(page.get_by_role("heading", name="Today")).to_be_visible()


def add_fencer(page, hands):
    hands.tap(page.get_by_role("link", name="Fencers", exact=True))
    hands.tap(page.get_by_test_id("add-fencer"))
    hands.fill(page.get_by_label("Nickname"), "Mila")
    hands.tap(page.get_by_role("radio", name="Foil"))
    hands.tap(page.get_by_test_id("save-fencer"))
    expect(page.locator("[data-testid^=row-]")).to_contain_text("Mila")


def book_today(page, hands):
    hands.tap(page.get_by_role("link", name="Today", exact=True))
    hands.tap(page.get_by_test_id("plan-evenings"))
    hands.tap(page.get_by_role("button", name="Mila Foil add at 17:00"))
    expect(page.get_by_test_id("evening")).to_contain_text("Mila")
    hands.tap(page.get_by_role("link", name="Today", exact=True))


def give_the_lesson(page, hands):
    plan = page.locator("[data-testid^=plan-]").filter(has=page.locator("ol.plan li")).first
    expect(plan.locator("summary").first).to_contain_text(
        re.compile(r"Plan: [1-9] parts?, \d+ min")
    )
    drill = plan.locator(".what").first.inner_text()
    hands.tap(page.get_by_role("button", name="Start: Mila"))
    hands.tap(page.get_by_test_id("consent-given"))
    expect(page.get_by_test_id("drill-pick")).to_contain_text(drill)
    agree_to_care(page, hands.tap)
    for kind in ["correct"] * 4 + ["late"] + ["correct"] * 5:
        mark(page, hands, kind)
    hands.tap(page.get_by_test_id("undo"))
    wait_for(page, 9)
    mark(page, hands, "correct")
    hands.tap(page.get_by_test_id("more"))
    hands.tap(page.get_by_test_id("more-finish"))
    hands.tap(page.get_by_test_id("end-lesson"))


def mark(page, hands, kind):
    number = len(standing_marks(page)) + 1
    expect(page.get_by_test_id(f"mark-{kind}")).to_be_enabled()
    hands.tap(page.get_by_test_id(f"mark-{kind}"))
    wait_for(page, number)


def wait_for(page, number):
    page_until(page, lambda: len(standing_marks(page)) == number, f"mark number {number}")


def look_after_it(page, hands):
    expect(page.get_by_test_id("after")).to_contain_text("9 of 10")
    hands.fill(page.get_by_test_id("note"), NOTE)
    hands.tap(page.get_by_test_id("to-today"))
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    all_sent(page)


def make_link(page, hands):
    hands.tap(page.get_by_role("link", name="Fencers", exact=True))
    hands.tap(page.locator("a[data-testid^=story-]"))
    hands.tap(page.get_by_test_id("to-record"))
    hands.tap(page.get_by_test_id("link-make"))
    expect(page.get_by_test_id("link-address")).to_be_visible()
    return page.get_by_test_id("link-address").input_value()


def see_as_parent(page):
    expect(page.get_by_role("heading", level=1)).to_have_text("Mila")
    told = page.locator("body").inner_text()
    assert "Halle Nord Fencing Circle" in told
    assert "nobody is compared with anybody" in told
    assert "10 cues: good practice, to be continued." in told
    assert page.locator("article.drill").count() == 1
    assert "Too early to say: only 1 lesson so far" in told
    assert "Next cue: " in told and "On your own: " in told
    assert NOTE not in told, "a coach's note is for coaches"
    assert "%" not in told, "no percentage of ten cues"


@pytest.mark.thorough
def test_from_an_empty_server_to_the_first_mark_takes_twelve_steps_at_most(empty):
    phone, link = empty
    hands = Hands()
    page = phone.start_blank()
    page.goto(link)
    set_up(page, hands)
    hands.tap(page.get_by_test_id("first-fencer").get_by_role("link", name="Add a fencer"))
    hands.fill(page.get_by_label("Nickname"), "Mila")
    hands.tap(page.get_by_role("radio", name="Foil"))
    hands.tap(page.get_by_test_id("save-fencer"))
    hands.tap(page.get_by_role("button", name="Start: Mila"))
    hands.tap(page.get_by_test_id("consent-given"))
    sheet = page.get_by_role("dialog", name="Choose a drill")
    hands.tap(sheet.get_by_text("To begin with").locator("+ ul button").first)
    hands.tap(page.get_by_test_id("mark-correct"))
    wait_for(page, 1)
    assert len(hands.used) <= 12, hands.used
