"""What the lessons teach, by the API: looked at, told, accepted by a head coach, taken back."""

import numpy as np
import pytest

from cueladder.rules.rule import settings_of
from cueladder.store.db.engine import db
from cueladder.store.db.models import Learned
from cueladder.store.drills.versions import drill_in, versions_of
from cueladder.store.fencers.erase import erase_fencer
from cueladder.store.log.charts import chart_of
from cueladder.store.replay.learned import gathered
from cueladder.store.whole.learned import keep, work_out
from tests.learning.planted import Size, truth
from tests.learning.suggested import READ, SLOW, look

PATH = "/api/club/learning"
CLUB = Size(fencers=20, lessons=20)


@pytest.fixture(scope="module")
def forgetful():
    """What is found of a club that forgets fast."""
    figures = truth(np.random.default_rng(5), loss=0.10, gain=2.3, step=0.6, paces=0.7)
    told = look(figures, CLUB, 5).told
    assert told["new_breaks"] is not None
    return told


def document_of(club, drill=None):
    db.session.remove()
    return drill_in(club.id, drill or club.drill)[1].document


def test_before_the_first_look_there_is_nothing(club):
    told = club.browser.get(PATH).get_json()
    assert told == {"running": False, "trouble": False, "at": None, "kinds": []}


def test_a_look_at_a_handful_of_marks_says_that_they_are_too_few(club):
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(12))
    answer = club.browser.post(PATH, {})
    assert answer.status_code == 202
    told = answer.get_json()
    assert told["at"] is not None
    (kind,) = told["kinds"]
    assert kind["seen"].startswith("12 marks of 1 fencer")
    assert "at least 300 marks" in kind["seen"]
    assert kind["setting"] is None and kind["breaks"] is None
    assert club.browser.get(f"{PATH}/numbers").get_json() == {"format": 1, "kinds": []}


def test_what_is_suggested_changes_nothing_until_it_is_accepted_and_can_be_taken_back(
    club, forgetful
):
    own, _ = club.add_drill(slug="own-breaks", breaks=[{"back": 1, "keep": 0.5}] * 4)
    before = document_of(club)
    keep(club.id, [forgetful])
    (kind,) = club.browser.get(PATH).get_json()["kinds"]
    assert kind["breaks"]["claim"] == "learn.breaks"
    assert document_of(club) == before

    told = club.browser.post(f"{PATH}/{READ}/breaks", {}).get_json()["kinds"][0]
    assert told["accepted"] == ["breaks"]
    changed = document_of(club)
    assert changed["breaks"] == forgetful["new_breaks"]
    chart = chart_of(drill_in(club.id, club.drill)[1].chart_id)
    assert [back for _, back in chart.reentry] == [row["back"] for row in changed["breaks"]]
    assert versions_of(club.id, club.drill)[0][1].startswith("Ansgar"), "it is in the history"
    assert document_of(club, own)["breaks"][0] == {"back": 1, "keep": 0.5}, "its own stay"
    assert club.browser.post(f"{PATH}/{READ}/breaks", {}).status_code == 409

    told = club.browser.send("DELETE", f"{PATH}/{READ}/breaks").get_json()["kinds"][0]
    assert told["accepted"] == []
    assert [one["taken"] for one in told["history"]] == [False, True]
    assert document_of(club) == before
    assert club.browser.send("DELETE", f"{PATH}/{READ}/breaks").status_code == 404


def test_a_drill_changed_since_keeps_what_it_was_changed_to(club, forgetful):
    keep(club.id, [forgetful])
    club.browser.post(f"{PATH}/{READ}/breaks", {})
    mine = {**document_of(club), "breaks": [{"back": 0, "keep": 1}] * 4}
    body = {"document": mine, "archived": False}
    assert club.browser.send("PUT", f"/api/drills/{club.drill}", body).status_code == 200
    club.browser.send("DELETE", f"{PATH}/{READ}/breaks")
    assert document_of(club)["breaks"] == mine["breaks"]


def test_a_setting_goes_to_the_drills_that_had_what_it_was_compared_with(club):
    slow, _ = club.add_drill(slug="slow", rule=SLOW.to_json())
    told = look(truth(np.random.default_rng(8), loss=0.02), CLUB, 8, SLOW).told
    assert told["suggested"] is not None
    keep(club.id, [told])
    assert club.browser.post(f"{PATH}/{READ}/rule", {}).status_code == 200
    wanted = settings_of(READ)[told["suggested"]].to_json()
    assert document_of(club, slow)["rule"] == wanted
    club.browser.send("DELETE", f"{PATH}/{READ}/rule")
    assert document_of(club, slow)["rule"] == SLOW.to_json()


def test_only_head_coaches_see_it_and_pictures_are_drawn(club, forgetful):
    keep(club.id, [forgetful])
    for name in ("rung", "gap", "lesson"):
        drawn = club.browser.get(f"{PATH}/{READ}/{name}.svg")
        assert drawn.status_code == 200
        assert drawn.get_data(as_text=True).startswith("<?xml")
    club.add_coach("Marlies", "coach")
    assert club.sign_in("Marlies").get(PATH).status_code == 403


def test_who_is_erased_takes_the_figures_along(club, forgetful):
    keep(club.id, [forgetful])
    erase_fencer(club.id, club.fencer, club.coach)
    db.session.remove()
    assert db.session.get(Learned, club.id) is None


def test_marks_taken_back_and_those_of_a_second_person_are_not_read(club):
    phone, other = club.phone(), club.phone(club.add_coach("Marlies", "coach"))
    opened, cues = phone.open(), phone.cues(6)
    club.browser.push(opened, *cues, phone.cue("late"), phone.void(cues[0]))
    watching = club.sign_in("Marlies")
    other.lesson = phone.lesson
    watching.push(*other.cues(4))
    found = gathered(club.id, {club.drill: club.chart})[READ]
    cells = found.cells
    assert (cells.marks, int(cells.right.sum())) == (6, 5)
    assert found.slips == 1


def test_a_climb_and_a_re_check_on_a_later_day_are_counted_where_they_were(club):
    phone = club.phone()
    club.browser.push(phone.open(day="2026-03-02"), *phone.cues(20))
    club.browser.push(phone.open(day="2026-03-14"), *phone.cues(3))
    found = gathered(club.id, {club.drill: club.chart})[READ]
    assert found.cells.climbs[:, 1].tolist() == [0]
    assert found.checks == [[0, 0], [1, 1], [0, 0], [0, 0]]
    assert found.cells.gap.tolist() == [0, pytest.approx(12 / 7)]
    assert work_out(club.id)[0]["checks"] == [[0, 0], [1, 1], [0, 0], [0, 0]]
