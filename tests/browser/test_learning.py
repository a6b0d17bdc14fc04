"""What the lessons teach, on the screen: looked at, read, accepted, taken back, numbers saved."""

import json

import numpy as np
import pytest
from playwright.sync_api import expect
from sqlalchemy import select

from cueladder.app import create_app
from cueladder.store.db.engine import db
from cueladder.store.db.models import Club
from cueladder.store.whole.learned import keep
from tests.browser.test_access import Inspector
from tests.browser.test_drills import api
from tests.learning.planted import Size, truth
from tests.learning.suggested import READ, look
from tests.store.club import CHEAP

pytestmark = pytest.mark.browser


def kept(salle):
    """What is found of a club that forgets fast, put where a look of this club would put it."""
    figures = truth(np.random.default_rng(5), loss=0.10, gain=2.3, step=0.6, paces=0.7)
    told = look(figures, Size(fencers=20, lessons=20), 5).told
    app = create_app({"DATA": salle.server.folder, **CHEAP})
    with app.app_context():
        keep(db.session.scalar(select(Club.id)), [told])
        db.session.remove()
        db.engine.dispose()


def starts_of(page, salle):
    drills = api(page, salle, "GET", "/api/drills").json()["drills"]
    return [one["document"].get("breaks") for one in drills if one["kind"] == READ]


def test_a_head_coach_reads_what_the_lessons_teach_accepts_it_and_takes_it_back(salle):
    kept(salle)
    page = salle.open("/club/learning")
    card = page.get_by_test_id(f"learned-{READ}")
    expect(card).to_contain_text("After breaks")
    inspector = Inspector(page)
    for fold in card.locator("details").all():
        fold.locator("summary").first.click()
    inspector.look("what the lessons teach")
    before = starts_of(page, salle)
    page.get_by_test_id(f"accept-breaks-{READ}").click()
    expect(card).to_contain_text("Accepted: your drills of this kind have it now.")
    after = starts_of(page, salle)
    assert after != before and all(after)
    page.get_by_test_id(f"back-breaks-{READ}").click()
    expect(card).to_contain_text("Taken back")
    assert starts_of(page, salle) == before

    page.get_by_test_id("numbers-read").click()
    text = page.get_by_test_id("numbers-text")
    expect(text).to_contain_text('"format": 1')
    inspector.look("the numbers")
    with page.expect_download() as saved:
        page.get_by_test_id("numbers-save").click()
    assert json.loads(saved.value.path().read_text()) == json.loads(text.inner_text())
    assert inspector.found == []


@pytest.mark.thorough
def test_a_look_at_a_season_says_what_it_saw_or_what_is_too_little(salle):
    page = salle.open("/club/learning")
    expect(page.get_by_test_id("learning-look")).to_contain_text("Nobody has looked yet.")
    page.get_by_test_id("learning-again").click()
    expect(page.get_by_test_id("learning-look")).to_contain_text("Last looked")
    expect(page.get_by_test_id(f"learned-{READ}")).to_contain_text("marks of")
    expect(page.get_by_test_id("learning-again")).to_be_enabled()
