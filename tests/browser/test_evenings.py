"""Evenings planned on a real phone: added, changed, removed, taken over; without a network too."""

from datetime import date, datetime, timedelta

import pytest
from playwright.sync_api import expect

from tests.browser.evening import offline, online
from tests.browser.phone import DESK
from tests.browser.strip import agree_to_care, all_sent, end_lesson, mark, open_lesson

pytestmark = pytest.mark.browser
FINGER = 44
HEADERS = {"X-Cue-Ladder": "1"}


def day_after(days):
    return (date.today() + timedelta(days)).isoformat()


def planned(page, salle, day):
    """The signed-in coach's lessons of a day as the server has them: time, minutes, nickname."""
    call = page.context.request
    me = call.get(f"{salle.server.url}/api/session").json()["coach"]["id"]
    names = {
        one["id"]: one["nickname"]
        for one in call.get(f"{salle.server.url}/api/fencers").json()["fencers"]
    }
    found = call.get(f"{salle.server.url}/api/bookings?from={day}&to={day}").json()["bookings"]
    return [(b["at"], b["minutes"], names[b["fencer"]]) for b in found if b["coach"] == me]


def to_evenings(page, day):
    page.get_by_test_id("plan-evenings").click()
    page.get_by_test_id(f"day-{day}").click()
    expect(page.get_by_test_id(f"day-{day}")).to_have_attribute("aria-pressed", "true")


def add(page, name):
    page.locator(".adds button").filter(has_text=name).click()
    expect(page.get_by_test_id("evening")).to_contain_text(name)


def shown(page):
    """Names on the list, in order."""
    who = page.get_by_test_id("evening").locator(".who")
    return [one.inner_text().split("\n")[0].strip() for one in who.all()]


def field(page, label, name):
    return page.get_by_label(f"{label}: {name}", exact=True)


def test_an_evening_is_planned_changed_and_undone_in_a_few_taps(salle):
    page, day = salle.open(), day_after(2)
    to_evenings(page, day)
    expect(page.get_by_role("link", name="Today", exact=True)).to_have_attribute(
        "aria-current", "page"
    )
    page.get_by_test_id("start-at").fill("16:30")
    add(page, "Anouk")
    field(page, "Minutes", "Anouk").fill("30")
    field(page, "Minutes", "Anouk").press("Enter")
    add(page, "Bela")
    page.get_by_test_id("evening-find").fill("cos")
    page.keyboard.press("Enter")
    expect(page.get_by_test_id("evening")).to_contain_text("Cosmo")
    expect(page.get_by_test_id("evening-sum")).to_have_text("3 lessons, from 16:30 to 18:00")
    all_sent(page)
    assert planned(page, salle, day) == [
        ("16:30", 30, "Anouk"),
        ("17:00", 30, "Bela"),
        ("17:30", 30, "Cosmo"),
    ]
    expect(page.get_by_role("button", name="Bela Épée planned at 17:00")).to_be_visible()

    field(page, "Time", "Cosmo").fill("15:00")
    field(page, "Time", "Cosmo").press("Enter")
    expect(page.get_by_test_id("evening").locator(".who").first).to_contain_text("Cosmo")
    page.get_by_role("button", name="Remove: Anouk").click()
    undo = page.get_by_role("button", name="Undo: put Anouk back")
    expect(undo).to_be_focused()
    assert shown(page) == ["Cosmo", "Bela"]
    undo.click()
    expect(undo).to_have_count(0)
    expect(page.get_by_test_id("evening")).to_contain_text("Anouk")
    page.get_by_role("button", name="Remove: Bela").click()
    expect(page.get_by_role("button", name="Undo: put Bela back")).to_be_visible()
    all_sent(page)
    assert planned(page, salle, day) == [("15:00", 30, "Cosmo"), ("16:30", 30, "Anouk")]

    # the start is kept on this phone for the next empty evening
    page.reload()
    page.get_by_test_id(f"day-{day_after(3)}").click()
    expect(page.get_by_test_id("start-at")).to_have_value("16:30")


@pytest.mark.thorough
def test_two_taps_at_once_add_nobody_twice_and_no_two_at_the_same_time(salle):
    page, day = salle.open(), day_after(2)
    to_evenings(page, day)
    twice = "(buttons) => { for (const one of buttons) { one.click(); one.click(); } }"
    page.locator(".adds button").filter(has_text="Anouk").or_(
        page.locator(".adds button").filter(has_text="Bela")
    ).evaluate_all(twice)
    expect(page.get_by_test_id("evening").locator("li")).to_have_count(2)
    all_sent(page)
    assert planned(page, salle, day) == [("17:00", 20, "Anouk"), ("17:20", 20, "Bela")]
    page.get_by_role("button", name="Remove: Bela").evaluate(
        "(one) => { one.click(); one.click(); }"
    )
    expect(page.get_by_test_id("undo-remove")).to_be_visible()
    all_sent(page)
    assert planned(page, salle, day) == [("17:00", 20, "Anouk")]
    expect(page.get_by_test_id("edits-refused")).to_have_count(0)


@pytest.mark.thorough
def test_a_lesson_added_at_once_reckons_with_what_was_just_typed(salle):
    page, day = salle.open(), day_after(2)
    to_evenings(page, day)
    add(page, "Anouk")
    field(page, "Minutes", "Anouk").fill("45")
    at_once = "(button) => { button.focus(); button.click(); }"
    page.locator(".adds button").filter(has_text="Bela").evaluate(at_once)
    expect(page.get_by_test_id("evening-sum")).to_have_text("2 lessons, from 17:00 to 18:30")
    all_sent(page)
    assert planned(page, salle, day) == [("17:00", 45, "Anouk"), ("17:45", 45, "Bela")]


@pytest.mark.thorough
def test_what_is_wrong_is_said_and_not_sent(salle):
    page, day = salle.open(), day_after(2)
    to_evenings(page, day)
    add(page, "Anouk")
    minutes = field(page, "Minutes", "Anouk")
    minutes.fill("3")
    minutes.press("Enter")
    expect(page.get_by_test_id("evening")).to_contain_text("Enter minutes from 5 to 240.")
    minutes.fill("60")
    minutes.press("Enter")
    expect(page.get_by_text("Enter minutes from")).to_have_count(0)
    add(page, "Bela")
    field(page, "Time", "Bela").fill("17:10")
    field(page, "Time", "Bela").press("Enter")
    expect(page.get_by_text("begins before the one above is over")).to_be_visible()
    all_sent(page)
    assert planned(page, salle, day) == [("17:00", 60, "Anouk"), ("17:10", 60, "Bela")]


@pytest.mark.thorough
def test_an_evening_is_repeated_week_by_week(salle):
    page, day = salle.open(), day_after(3)
    to_evenings(page, day)
    add(page, "Cosmo")
    page.get_by_test_id("weekly").get_by_role("combobox").select_option("4")
    page.get_by_test_id("repeat-weekly").click()
    expect(page.get_by_test_id("evening-told")).to_have_text("Repeated for 4 weeks.")
    all_sent(page)
    for week in range(5):
        assert [name for *_, name in planned(page, salle, day_after(3 + 7 * week))] == ["Cosmo"]
    assert planned(page, salle, day_after(3 + 7 * 5)) == []


def test_without_a_network_a_week_is_planned_and_sent_later(salle):
    page, last, day = salle.open(), day_after(-4), day_after(3)
    club = page.context.request.get(f"{salle.server.url}/api/fencers").json()["fencers"]
    ids = {one["nickname"]: one["id"] for one in club}
    for name, at in (("Anouk", "18:00"), ("Bela", "18:20")):
        answer = page.context.request.post(
            f"{salle.server.url}/api/bookings",
            headers=HEADERS,
            data={"fencer": ids[name], "day": last, "at": at, "minutes": 25},
        )
        assert answer.status == 201, answer.text()
    page.reload()
    to_evenings(page, day)
    expect(page.get_by_test_id("same")).to_have_text("Same as last week (2)")
    offline(page, salle)
    page.reload()
    page.get_by_test_id(f"day-{day}").click()
    page.get_by_test_id("same").click()
    expect(page.get_by_test_id("evening")).to_contain_text("not sent yet")
    assert shown(page) == ["Anouk", "Bela"]
    add(page, "Cosmo")
    field(page, "Time", "Anouk").fill("17:30")
    field(page, "Time", "Anouk").press("Enter")
    page.get_by_role("button", name="Remove: Bela").click()
    expect(page.get_by_test_id("undo-remove")).to_be_visible()
    page.reload()
    page.get_by_test_id(f"day-{day}").click()
    expect(page.get_by_test_id("evening")).to_contain_text("Cosmo")
    assert shown(page) == ["Anouk", "Cosmo"]

    # today's list has what was planned for today, too
    page.get_by_test_id(f"day-{day_after(0)}").click()
    add(page, "Zoe")
    page.get_by_role("link", name="Today", exact=True).click()
    expect(page.locator("[data-testid^=lesson-]").filter(has_text="Zoe")).to_be_visible()
    online(page, salle)
    assert planned(page, salle, day) == [("17:30", 25, "Anouk"), ("18:45", 25, "Cosmo")]
    page.get_by_role("link", name="Today", exact=True).click()
    card = page.locator("[data-testid^=lesson-]").filter(has_text="Zoe")
    card.locator("summary").first.click()
    expect(card.locator("ol.plan li").first).to_be_visible()


@pytest.mark.thorough
def test_a_refused_lesson_is_shown_and_given_up(salle):
    page, day = salle.open(), day_after(2)
    to_evenings(page, day)
    # meanwhile another phone of this coach books the same fencer
    other = page.context.request
    fencers = other.get(f"{salle.server.url}/api/fencers").json()["fencers"]
    anouk = next(one["id"] for one in fencers if one["nickname"] == "Anouk")
    answer = other.post(
        f"{salle.server.url}/api/bookings",
        headers=HEADERS,
        data={"fencer": anouk, "day": day, "at": "20:00"},
    )
    assert answer.status == 201, answer.text()
    page.get_by_role("button", name="Anouk Foil add at 17:00").click()
    refused = page.get_by_test_id("edits-refused")
    expect(refused).to_contain_text("has a lesson on this day already")
    refused.get_by_role("button", name="Give up: Lesson of Anouk").click()
    refused.get_by_role("button", name="Yes, give it up").click()
    expect(refused).to_have_count(0)
    expect(field(page, "Time", "Anouk")).to_have_value("20:00")
    assert planned(page, salle, day) == [("20:00", 20, "Anouk")]


@pytest.mark.thorough
def test_the_plan_of_a_fencer_without_a_booking_is_offered_where_nothing_moves(salle):
    page = salle.open()
    page.locator("[data-testid^=fencer-] button").first.click()
    sheet = page.get_by_role("dialog", name="Choose a drill")
    offered = sheet.get_by_test_id("suggested")
    expect(offered.locator("summary")).to_contain_text("Suggested plan")
    offered.locator("summary").click()
    name = offered.get_by_test_id("suggested-0").locator("span").first.inner_text().split("\n")[0]
    offered.get_by_test_id("suggested-0").click()
    expect(page.get_by_test_id("drill-pick")).to_contain_text(name)
    agree_to_care(page)
    page.get_by_test_id("drill-pick").click()
    expect(sheet.get_by_role("heading", name="Planned for this lesson")).to_be_visible()


@pytest.mark.thorough
def test_without_an_answer_the_full_list_is_offered_as_before(salle):
    page = salle.open()
    offline(page, salle)
    page.locator("[data-testid^=fencer-] button").first.click()
    sheet = page.get_by_role("dialog", name="Choose a drill")
    expect(sheet).to_contain_text("No plan without a connection")
    assert sheet.locator("[data-testid^=drill-]").count() > 5


@pytest.mark.thorough
def test_a_part_of_a_plan_is_dragged_to_another_place(salle):
    page = salle.open()
    page.locator("[data-testid^=change-]").first.click()
    parts = page.locator(".plan-edit .what")
    first, second = parts.nth(0).inner_text(), parts.nth(1).inner_text()
    grip = page.get_by_test_id("grip-0")
    grip.scroll_into_view_if_needed()
    start, end = grip.bounding_box(), page.get_by_test_id("grip-1").bounding_box()
    page.mouse.move(start["x"] + 20, start["y"] + 20)
    page.mouse.down()
    page.mouse.move(end["x"] + 20, end["y"] + 20, steps=4)
    page.mouse.up()
    expect(parts.nth(0)).to_have_text(second)
    expect(parts.nth(1)).to_have_text(first)


@pytest.mark.thorough
def test_every_target_of_the_screen_is_big_enough_for_a_finger(salle):
    page = salle.open()
    page.get_by_test_id("plan-evenings").click()
    expect(page.get_by_test_id("evening").locator("li").first).to_be_visible()
    for target in page.locator("main :is(a, button, input, select)").all():
        box = target.bounding_box()
        assert box["width"] >= FINGER and box["height"] >= FINGER, target.inner_text()
    width = page.evaluate("document.documentElement.scrollWidth")
    assert width <= page.viewport_size["width"]


def test_today_has_the_next_lesson_first_and_those_given_below(salle):
    page = salle.open()
    to_give, given = page.get_by_test_id("to-give"), page.get_by_test_id("given")
    all_of_today = planned(page, salle, day_after(0))
    cards = to_give.locator(".card")
    expect(cards).to_have_count(len(all_of_today))
    assert len(all_of_today) > 4
    names = cards.get_by_role("heading").all_text_contents()
    assert sorted(names) == sorted(name for *_, name in all_of_today)
    expect(given).to_have_count(0)
    open_lesson(page)
    mark(page, "correct")
    end_lesson(page)
    page.get_by_test_id("to-today").click()
    expect(given.locator(".card")).to_contain_text(names[0])
    expect(cards.get_by_role("heading")).to_have_text(names[1:])
    # the plan that stands open is the next lesson's
    expect(cards.first.locator(".plan-fold")).to_have_attribute("open", "")
    expect(given.locator(".plan-fold[open]")).to_have_count(0)


@pytest.mark.thorough
def test_a_lesson_under_way_stands_first_and_says_who_comes_after(salle):
    page = salle.open()
    to_give = page.get_by_test_id("to-give")
    at = {name: time for time, _minutes, name in planned(page, salle, day_after(0))}
    expect(to_give.get_by_role("heading")).to_have_count(len(at))
    names = to_give.get_by_role("heading").all_text_contents()
    then = to_give.locator(".then")
    expect(then).to_have_text(f"Then {names[1]}, {at[names[1]]}")
    open_lesson(page, number=2)
    mark(page, "correct")
    page.get_by_role("link", name="Today", exact=True).click()
    expect(to_give.get_by_role("heading")).to_have_text([names[2], *names[:2], *names[3:]])
    expect(to_give.get_by_role("link")).to_have_accessible_name(f"Go on: {names[2]}")
    expect(then).to_have_text(f"Then {names[0]}, {at[names[0]]}")
    expect(to_give.locator(".plan-fold[open]")).to_have_count(1)


@pytest.mark.thorough
def test_at_a_desk_the_next_lesson_has_its_plan_beside_those_that_follow(salle):
    page = salle.open()
    page.set_viewport_size(DESK)
    cards = page.get_by_test_id("to-give").locator(".card")
    first, second, third = (cards.nth(k).bounding_box() for k in range(3))
    assert second["y"] == first["y"]
    assert second["x"] >= first["x"] + first["width"]
    assert third["x"] == second["x"]
    assert 0 < third["y"] - second["y"] - second["height"] < FINGER
    expect(page.locator(".then")).to_be_hidden()


@pytest.mark.thorough
def test_a_lesson_never_ended_goes_on_past_midnight_but_not_the_next_afternoon(salle):
    page = salle.open()
    name = page.get_by_test_id("to-give").get_by_role("heading").first.inner_text()
    open_lesson(page)
    mark(page, "correct")
    go_on = page.get_by_role("link", name=f"Go on: {name}")
    for at, stands in (("00:30", 1), ("17:00", 0)):
        page.clock.set_system_time(datetime.fromisoformat(f"{day_after(1)}T{at}"))
        page.goto(salle.phone.url)
        expect(page.get_by_role("button", name="Start:").first).to_be_visible()
        expect(go_on).to_have_count(stands)
    expect(page.get_by_role("button", name=f"Start: {name}")).to_be_visible()
