"""A plan by chance: drawn at the desk, followed, and told once its last bout has been sent."""

import uuid
from datetime import date, datetime, timedelta

import pytest
from playwright.sync_api import expect
from sqlalchemy import select
from uuid_utils import uuid7

from cueladder.app import create_app
from cueladder.store.db.engine import db, writing
from cueladder.store.db.models import Club, Coach, Fencer
from cueladder.store.drills.versions import drills_of
from cueladder.store.fencers.draws import bout_days, drawable, drawn
from cueladder.store.log.seed import import_events
from tests.browser.evening import offline, online
from tests.browser.strip import all_sent
from tests.browser.test_access import Inspector
from tests.browser.test_bout import keep, tap
from tests.store.club import CHEAP

pytestmark = pytest.mark.browser

COUNTS = {"shown": 0, "fallen": 0, "scored": 0, "conceded": 0}
DRILLS, DAYS = 4, 13


def fencer_page(page, salle, fencer):
    page.goto(f"{salle.phone.url}/fencers/{fencer}")
    chance = page.get_by_test_id("chance")
    expect(chance).to_be_visible()
    return chance


def fencer_of(page):
    """A fencer of the club, by a number the phone knows."""
    return page.evaluate("fetch('/api/fencers').then((r) => r.json())")["fencers"][0]["id"]


def test_a_coach_draws_a_plan_reads_what_is_next_and_may_withdraw_it(salle):
    page = salle.open()
    fencer = fencer_of(page)
    chance = fencer_page(page, salle, fencer)
    chance.get_by_text("Draw a plan by chance").click()
    boxes = chance.locator("[data-testid^=draw-of-]")
    for at in range(3):
        boxes.nth(at).check()
    expect(page.get_by_test_id("draw-outlook")).to_contain_text("cannot tell")
    boxes.nth(3).check()
    expect(page.get_by_test_id("draw-outlook")).to_contain_text("There are 24 orders.")
    page.get_by_test_id("draw-days").fill("8")
    expect(chance).to_contain_text("at least 9 bout days")
    page.get_by_test_id("draw-days").fill("9")
    page.get_by_test_id("draw").click()
    page.get_by_test_id("draw-yes").click()
    # who watches the bouts opens this page, too
    expect(page.get_by_test_id("to-order")).to_be_visible()
    expect(page.get_by_test_id("draw-next")).to_have_count(0)
    page.get_by_test_id("to-order").locator("summary").click()
    expect(page.get_by_test_id("draw-next")).to_contain_text("To begin next: ")
    expect(page.get_by_test_id("draw-did")).to_contain_text("Too early to say")
    order = page.get_by_test_id("drawn-order").locator("li")
    expect(order).to_have_count(4)
    said = order.all_inner_texts()
    # in the hall without a network it is still there
    offline(page, salle)
    page.reload()
    page.get_by_test_id("to-order").locator("summary").click()
    expect(page.get_by_test_id("draw-next")).to_contain_text("To begin next: ")
    assert order.all_inner_texts() == said
    online(page, salle)
    fencer_page(page, salle, fencer)
    page.get_by_role("button", name="Withdraw the plan").click()
    page.get_by_role("button", name="Yes, withdraw it").click()
    expect(chance).to_contain_text("it is not judged")
    expect(page.get_by_test_id("draw-next")).to_have_count(0)
    assert order.all_inner_texts() == said


def plant(folder, last, nickname="Vera", until=-1):
    """A plan that ends on a day, kept to in lessons, its bouts watched ``until`` the last but one.

    Returns the fencer, and the drills in the drawn order.
    """
    app = create_app({"DATA": folder, **CHEAP})
    with app.app_context():
        fencer = db.session.scalars(select(Fencer).where(Fencer.nickname == nickname)).one()
        head = db.session.scalars(select(Coach).where(Coach.role == "head")).one()
        club = db.session.get_one(Club, fencer.club_id)
        fresh = drawable(db.session(), fencer, last)
        drills = [drill for drill, each in fresh if each["kind"] == "sensitization"][:DRILLS]
        days = bout_days(last - timedelta(days=7 * (DAYS - 1)), 7, DAYS)
        one = drawn(fencer, str(uuid.uuid4()), head.id, drills, days, "a seed of the test")
        charts = {drill.id: version.chart_id for drill, version in drills_of(club.id)}
        begins = dict(zip(one.drills, one.begins, strict=True))
        with writing() as session:
            session.add(one)
        import_events(club, list(_history(fencer.id, head.id, begins, days[:until], charts)))
        found = fencer.id, list(begins)
        db.session.remove()
        db.engine.dispose()
    return found


def _history(fencer, coach, begins, days, charts):
    device, n = str(uuid.uuid4()), 0

    def event(kind, on, **told):
        nonlocal n
        n += 1
        made = {"id": str(uuid7()), "type": kind, "device": device, "n": n, "coach": coach}
        return {**made, "at": f"{on}T18:00:00.000+01:00", **told}

    for drill, day in begins.items():
        opened = event("lesson_opened", day, fencer=fencer, day=day)
        lesson = opened["id"]
        yield {**opened, "lesson": lesson}
        yield event("cue_marked", day, lesson=lesson, drill=drill, chart=charts[drill], place=0,
                    given="attack", mark="correct", tense=False, loud=None, wait=None)  # fmt: skip
    for day in map(str, days):
        for drill, turn in begins.items():
            bout = event("bout_watched", day, fencer=fencer, drill=drill, day=day, met=4,
                         answered=1 if day < turn else 3, **COUNTS)  # fmt: skip
            yield {**bout, "lesson": bout["id"]}


@pytest.mark.thorough
def test_the_last_bout_is_watched_without_a_network_and_sent_it_brings_the_sentence(salle):
    yesterday = date.today() - timedelta(days=1)
    page = salle.open()
    all_sent(page)
    offline(page, salle)
    fencer, drills = plant(salle.server.folder, yesterday)
    page.clock.set_system_time(datetime.fromisoformat(f"{yesterday}T20:00:00"))
    page.get_by_test_id("to-bout").click()
    page.get_by_test_id(f"bout-of-{fencer}").click()
    for drill in drills:
        page.get_by_test_id("bout-drill").select_option(drill)
        tap(page, answered=3, missed=1)
        keep(page)
    page.clock.set_system_time(datetime.now())
    online(page, salle)
    all_sent(page)
    chance = fencer_page(page, salle, fencer)
    # 3, 5, 7 and 9 of 13 bout days before, at 1 of 4, the rest at 3 of 4
    expect(page.get_by_test_id("draw-did")).to_have_text(
        "The lessons show in bouts: of 24 orders that could have been drawn, only the one that was "
        "drawn fits the bouts so well. In bouts before they were begun: 24 of 96 (25 %); after: "
        "84 of 112 (75 %)."
    )
    chance.get_by_text("Exact figures").click()
    expect(page.get_by_test_id("draw-p")).to_contain_text("p = 0.042, exact over all orders")
    expect(page.get_by_test_id("drawn-order").locator("li").first).to_contain_text("begun on")
    expect(page.get_by_test_id("draw-next")).to_have_count(0)


@pytest.mark.thorough
def test_plans_of_several_fencers_are_told_together_once_their_half_year_is_over(salle):
    today = date.today()
    half = date(today.year, 7, 1) if today.month > 6 else date(today.year, 1, 1)
    for nickname in ("Vera", "Anouk"):
        plant(salle.server.folder, half - timedelta(days=3), nickname, None)
    page = salle.open("/club")
    card = page.get_by_test_id("together")
    expect(card).to_contain_text("2 plans by chance that end by")
    expect(card).to_contain_text("The lessons show in bouts: of 576 orders")
    card.get_by_text("Exact figures").click()
    expect(card).to_contain_text("1 of 576 reach the fit of the drawn one")
    inspector = Inspector(page)
    inspector.look("plans together")
    assert inspector.found == []
