"""A season: a competition noted, a goal set by it, its plan read, the sheet for paper opened."""

import re
from datetime import date, timedelta

import pytest
from playwright.sync_api import expect

from tests.browser.evening import offline, online
from tests.browser.test_draws import fencer_of

pytestmark = pytest.mark.browser


def fencer_page(page, salle, fencer):
    page.goto(f"{salle.phone.url}/fencers/{fencer}")
    goals = page.get_by_test_id("goals")
    expect(goals).to_be_visible()
    return goals


def note_competition(page, salle, name, day):
    """Note one on the page of the club; its row there."""
    page.goto(f"{salle.phone.url}/club")
    card = page.get_by_test_id("competitions")
    card.get_by_text("Note a competition").click()
    page.get_by_test_id("competition-name").fill(name)
    page.get_by_test_id("competition-day").fill(day.isoformat())
    page.get_by_test_id("competition-save").click()
    row = card.locator("li", has_text=name)
    expect(row).to_be_visible()
    return row


@pytest.mark.thorough
def test_a_goal_by_a_competition_is_set_read_without_a_network_and_given_up(salle):
    page = salle.open()
    fencer = fencer_of(page)
    day = date.today() + timedelta(days=30)
    row = note_competition(page, salle, "Harbour Cup", day)
    goals = fencer_page(page, salle, fencer)
    goals.get_by_text("Set a goal").click()
    page.get_by_test_id("goal-drill").select_option(index=1)
    expect(page.get_by_test_id("goal-by")).to_contain_text("Harbour Cup")
    by = page.get_by_test_id("goal-by").locator("option", has_text="Harbour Cup")
    page.get_by_test_id("goal-by").select_option(by.get_attribute("value"))
    page.get_by_test_id("goal-set").click()
    goal = goals.locator("[data-testid^='goal-']", has_text="Harbour Cup").first
    expect(goal).to_contain_text("Harbour Cup, ")
    expect(goal).to_contain_text("there is room for about")
    # in the hall without a network it is still there
    offline(page, salle)
    page.reload()
    expect(goal).to_contain_text("there is room for about")
    online(page, salle)
    # as long as the goal stands its competition stays
    page.goto(f"{salle.phone.url}/club")
    row.get_by_text("Change").click()
    row.get_by_role("button", name="Remove it").click()
    row.get_by_role("button", name="Yes, remove it").click()
    expect(row).to_contain_text("1 goal is set by it")
    fencer_page(page, salle, fencer)
    goal.get_by_role("button", name="Give the goal up").click()
    goal.get_by_role("button", name="Yes, give it up").click()
    expect(goals.get_by_text("Harbour Cup, ")).to_have_count(0)
    page.goto(f"{salle.phone.url}/club")
    row.get_by_text("Change").click()
    row.get_by_role("button", name="Remove it").click()
    row.get_by_role("button", name="Yes, remove it").click()
    expect(row).to_have_count(0)


def test_the_season_page_opens_beside_the_fencers_in_the_language_of_the_app(salle):
    page = salle.open()
    fencer = fencer_of(page)
    fencer_page(page, salle, fencer)
    with page.expect_popup() as opened:
        page.get_by_test_id("to-season").click()
    sheet = opened.value
    expect(sheet.get_by_role("heading", level=1)).to_be_visible()
    expect(sheet.get_by_role("heading", name="What is secure, and where")).to_be_visible()
    assert re.search(r"/season\?lang=en$", sheet.url)
    expect(sheet.locator(".season")).to_contain_text("nobody is compared with anybody")
