"""A partner's card: made and shown without a network, entered by its letters, told in the story."""

import pytest
from playwright.sync_api import expect

from tests.browser.evening import offline, online
from tests.browser.hands import told_today
from tests.browser.strip import all_sent

pytestmark = pytest.mark.browser


def sets(page):
    """Every event about a set by a partner on the phone, oldest first."""
    return told_today(page, "partner_marked", "partner_voided")


def card_of(page, salle, number=0):
    """Open the card of a fencer of the list; the fencer's id and the card's letters."""
    page.goto(salle.phone.url + "/fencers")
    row = page.locator("[data-testid^=row-]").nth(number)
    expect(row).to_be_visible()
    fencer = row.get_attribute("data-testid").removeprefix("row-")
    page.goto(f"{salle.phone.url}/fencers/{fencer}/card")
    expect(page.get_by_test_id("card-sheet")).to_be_visible()
    return fencer, page.get_by_test_id("card-code").inner_text()


def open_card(page, letters):
    page.get_by_test_id("card-letters").fill(letters)
    page.get_by_test_id("find-card").click()


def tick(page, ticks):
    """Tick the cues in order: 1 right, 0 not right, - not given."""
    for number, one in enumerate(ticks, 1):
        row = page.get_by_test_id(f"tick-{number}")
        if one not in ("-", row.get_attribute("data-tick")):
            row.get_by_test_id("right" if one == "1" else "wrong").click()
        expect(row).to_have_attribute("data-tick", one)


def test_a_card_is_made_and_entered_without_a_network_and_told_in_the_story(salle):
    page = salle.open()
    fencer, other = card_of(page, salle)
    drill = page.get_by_test_id("card-drill").input_value()
    offline(page, salle)
    page.get_by_test_id("draw-again").click()
    expect(page.get_by_test_id("card-code")).not_to_have_text(other)
    letters = page.get_by_test_id("card-code").inner_text()
    address = page.get_by_test_id("picture").get_attribute("data-address")
    assert address == f"{salle.phone.url}/partner/{letters}"
    page.goto(salle.phone.url + "/partner")
    open_card(page, letters.lower().replace("-", " ").replace("0", "o"))
    expect(page.get_by_test_id("entering")).to_be_visible()
    tick(page, "1101")
    # left in the middle, by a reload or by another card's link, it loses no tick
    page.reload()
    expect(page.get_by_test_id("tick-3")).to_have_attribute("data-tick", "0")
    page.goto(f"{salle.phone.url}/partner/{other}")
    expect(page.get_by_test_id("tick-4")).to_have_attribute("data-tick", "1")
    tick(page, "1101-11111")
    page.get_by_test_id("keep-set-by-partner").click()
    expect(page.get_by_test_id("kept-set")).to_have_count(1)
    (told,) = sets(page)
    assert (told["fencer"], told["drill"], told["card"]) == (fencer, drill, letters)
    assert told["ticks"] == "1101-11111"
    online(page, salle)
    all_sent(page)
    page.goto(f"{salle.phone.url}/fencers/{fencer}")
    expect(page.get_by_test_id(f"partners-{drill}")).to_contain_text(
        "By the partner's own ticks 8 of 9 cues right"
    )


@pytest.mark.thorough
def test_a_set_is_corrected_and_taken_back(salle):
    page = salle.open()
    _, letters = card_of(page, salle)
    page.get_by_test_id("enter-card").click()
    tick(page, "1")
    # the same tick again takes it away
    page.get_by_test_id("tick-1").get_by_test_id("right").click()
    tick(page, "-0")
    expect(page.get_by_test_id("tick-counts")).to_contain_text("Correct: 0 of 1")
    page.get_by_test_id("keep-set-by-partner").click()
    expect(page.get_by_test_id("kept-set")).to_be_visible()
    # its letters once more: it is corrected, not entered a second time
    open_card(page, letters)
    expect(page.get_by_test_id("entered-before")).to_be_visible()
    expect(page.get_by_test_id("tick-2")).to_have_attribute("data-tick", "0")
    page.get_by_test_id("drop-card").click()
    page.get_by_role("button", name="Correct it").click()
    expect(page.get_by_test_id("tick-2")).to_have_attribute("data-tick", "0")
    tick(page, "11")
    page.get_by_test_id("keep-set-by-partner").click()
    expect(page.get_by_test_id("kept-set")).to_contain_text("2 of 2 correct")
    page.get_by_role("button", name="Take back").click()
    expect(page.get_by_test_id("kept-sets")).to_be_hidden()
    first, second, back = sets(page)
    assert [one["ticks"][:2] for one in (first, second)] == ["-0", "11"]
    assert second["lesson"] == back["lesson"] == first["id"]
    assert back["type"] == "partner_voided"
    assert first["card"] == letters


@pytest.mark.thorough
def test_letters_of_no_card_say_what_to_do_and_nothing_is_lost(salle):
    page = salle.open()
    page.goto(salle.phone.url + "/partner/7ZK3M-0Q9RT-4XC")
    expect(page.get_by_test_id("no-card")).to_contain_text("note the set in the next lesson")
    open_card(page, "abc")
    expect(page.get_by_test_id("no-card")).to_be_visible()
    expect(page.get_by_test_id("card-letters")).to_have_value("abc")
    assert sets(page) == []


@pytest.mark.thorough
def test_what_startles_is_on_no_card_and_the_heat_of_a_mixed_drill_stays_mildest(salle):
    page = salle.open()
    card_of(page, salle)
    kinds = page.evaluate(
        """() => fetch("/api/club").then((reply) => reply.json())
          .then(({drills}) => Object.fromEntries(drills.map(({id, kind}) => [id, kind])))"""
    )
    pick = page.get_by_test_id("card-drill")
    listed = pick.locator("option").evaluate_all("all => all.map((one) => one.value)")
    assert {kinds[drill] for drill in listed} == {"sensitization", "discrimination"}
    mixed = next(drill for drill in listed if kinds[drill] == "discrimination")
    pick.select_option(mixed)
    given = page.get_by_test_id("card-sheet").locator("tbody tr td:nth-child(3)")
    expect(given).to_have_count(10)
    # what the partner gives, in the drill's own words, not what the fencer is to do
    words = given.all_inner_texts()
    first, second = set(words)
    assert 4 <= words.count(first) <= 6
    assert {first, second}.isdisjoint({"Answer", "Leave"})
    expect(page.get_by_test_id("card-sheet")).to_contain_text("leaves alone: ")
    page.get_by_test_id("enter-card").click()
    expect(page.get_by_test_id("tick-10")).to_contain_text(words[9])


@pytest.mark.thorough
def test_the_printed_card_is_the_card_alone_on_one_sheet_whatever_the_drill(salle):
    page = salle.open()
    card_of(page, salle)
    page.emulate_media(media="print")
    for away in ("print-card", "card-drill", "enter-card"):
        expect(page.get_by_test_id(away)).to_be_hidden()
    expect(page.get_by_role("navigation")).to_be_hidden()
    page.emulate_media(media="null")
    pick, face = page.get_by_test_id("card-drill"), page.get_by_test_id("card-sheet")
    names = pick.locator("option").all_inner_texts()
    assert len(names) > 10
    for name in names:
        pick.select_option(label=name)
        expect(face.get_by_role("heading", name=name)).to_be_visible()
        assert page.pdf(format="A4").count(b"/Type /Page\n") == 1, name
