"""A hurried hand: bursts of taps, double taps, slips, firm presses and a phone that turns.

What the list shows afterwards is what was meant by the rules: one mark a cue; a second touch within
300 ms is none; a finger that slips off is none; how long it presses says nothing; a mark of the
other kind of cue moves nothing; undo takes back the last one.
"""

import random

import pytest
from playwright.sync_api import expect

from tests.browser.phone import frames
from tests.browser.strip import (
    HEAT_DRILL,
    MIXED_DRILL,
    READ_DRILL,
    choose,
    last_shown,
    open_lesson,
    standing_marks,
)
from tests.examples import TIMES

pytestmark = pytest.mark.browser
APART = 300
# 300 bursts over the three kinds of drill in `make agree`, some in every run
BURSTS = 10 * TIMES
SIZES = ((360, 740), (740, 360))


class Hand:
    """Presses by the page's own clock, and keeps what should have come of them."""

    def __init__(self, page, chance):
        self.page, self.chance = page, chance
        self.expected = [(one["mark"], one["tense"]) for one in standing_marks(page)]
        self.first = len(self.expected)
        self.now, self.marked, self.undone = 10_000, 0, 0

    def wait(self, ms):
        self.page.clock.run_for(ms)
        self.now += ms

    def keys(self):
        """The marks that can be pressed, and whether each fits the cue on screen."""
        pads = self.page.locator("[data-testid=pad] button:not([disabled])").all()
        return [(pad.get_attribute("data-key"), pad.get_attribute("data-fits")) for pad in pads]

    def press(self, key, fits, held, slips):
        box = self.page.get_by_test_id(f"mark-{key}").bounding_box()
        mouse = self.page.mouse
        mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        mouse.down()
        self.wait(held)
        if slips:
            mouse.move(2, 2)
        mouse.up()
        if slips or fits != "true" or self.now - self.marked < APART:
            return
        self.marked = self.now
        self.expected.append(("correct" if key == "tense" else key, key == "tense"))

    def undo(self):
        if self.page.get_by_test_id("refusal").count() > 0:
            self.page.get_by_test_id("refusal").click()
        if len(self.expected) == self.first or self.now - self.undone < APART:
            return
        self.page.get_by_test_id("undo").click()
        self.undone = self.now
        self.expected.pop()

    def settle(self):
        """Until what was tapped stands; the page's clock may have to go on for it."""
        for _ in range(40):
            self.wait(20)
            marks = standing_marks(self.page)
            kept = [(one["mark"], one["tense"]) for one in marks]
            last = marks[-1]["id"] if marks else None
            if kept == self.expected and last_shown(self.page) == last:
                break
        assert kept == self.expected
        assert last_shown(self.page) == last

    def burst(self):
        chance = self.chance
        if chance.random() < 0.15:
            self.page.set_viewport_size(
                dict(zip(("width", "height"), chance.choice(SIZES), strict=True))
            )
        key, fits = chance.choice(self.keys())
        for _ in range(chance.choice([1, 1, 1, 2, 2, 3])):
            if chance.random() < 0.2:
                key, fits = chance.choice(self.keys())
            self.press(
                key,
                fits,
                held=chance.choice([30, 80, 200, 450, 900]),
                slips=chance.random() < 0.1,
            )
            self.settle()
            self.wait(chance.choice([40, 150, 290, 310, 600]))
            found = dict(self.keys())
            fits = found.get(key, "false")
        if chance.random() < 0.2:
            self.undo()
            self.settle()
        self.wait(chance.choice([320, 700]))


@pytest.mark.parametrize(
    "drill",
    [
        pytest.param(READ_DRILL, marks=pytest.mark.thorough),
        pytest.param(HEAT_DRILL, marks=pytest.mark.thorough),
        MIXED_DRILL,
    ],
)
def test_what_the_list_shows_is_what_a_hurried_hand_meant(salle, drill):
    page = salle.phone.start_blank()
    page.add_init_script("localStorage.setItem('cue-ladder-settings', '{}')")
    page.clock.install()
    page.goto(salle.phone.url)
    expect(page.get_by_role("button", name="Start:").first).to_be_visible()
    open_lesson(page, READ_DRILL)
    if drill != READ_DRILL:
        choose(page, drill)
    frames(page)
    page.clock.pause_at(page.evaluate("Date.now() / 1000") + 1)
    hand = Hand(page, random.Random(drill))
    for _ in range(BURSTS):
        hand.burst()
    assert len(hand.expected) > 0
