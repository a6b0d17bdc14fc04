"""Sets that fencers give each other: sent as events of their own, told as a partner's ticks."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db
from cueladder.store.db.models import Event, PartnerSet, Standing
from cueladder.store.log.charts import chart_of
from cueladder.store.replay.partner_sets import sets_of
from tests.api.test_settings import DAY, climbed, taught, where
from tests.store.club import Club, statuses
from tests.store.test_goals import give_goal

CARD, CLEAN = "7ZK3M-0Q9RT-4XC", 10


def by_partner(phone, of=None, **fields):
    """A set by a partner, or a correction of one."""
    club = phone.club
    told = {
        "fencer": club.fencer, "drill": club.drill, "day": "2026-03-02", "chart": club.chart,
        "place": 0, "card": CARD, "cues": "a" * CLEAN, "ticks": "1" * CLEAN,
    }  # fmt: skip
    event = phone.event("partner_marked", **told | fields)
    return {**event, "lesson": of["id"] if of else event["id"]}


def taken_back(phone, of):
    return {**phone.event("partner_voided"), "lesson": of["id"]}


def partners(club, browser=None):
    answer = (browser or club.browser).get(f"/api/fencers/{club.fencer}/story")
    assert answer.status_code == 200, answer.text
    return answer.get_json()["partners"]


def why(club, *events):
    return club.browser.push(*events)["results"][-1]["why"]


def test_a_set_is_stored_and_told_as_the_partners_ticks(club):
    phone = club.phone()
    sent = by_partner(phone, ticks="11101-1111")
    assert statuses(club.browser.push(sent)) == ["stored"]
    assert statuses(club.browser.push(sent)) == ["already"]
    (told,) = partners(club)
    assert (told["claim"], told["right"], told["given"], told["sets"]) == ("partner.count", 8, 9, 1)
    assert told["words"] == "By the partner's own ticks 8 of 9 cues right, at rung 1 of 5."
    assert told["cue"] and told["last"] == "2026-03-02"


def test_sets_at_one_rung_are_added_up_and_those_at_another_begin_anew(club):
    phone = club.phone()
    club.browser.push(
        by_partner(phone, ticks="1111100000", card="A"),
        by_partner(phone, day="2026-03-03", place=1, ticks="1111111110", card="B"),
        by_partner(phone, day="2026-03-04", place=1, ticks="1111111100", card="C"),
    )
    (told,) = partners(club)
    assert (told["right"], told["given"], told["sets"]) == (17, 20, 2)
    assert told["words"] == (
        "By the partner's own ticks 17 of 20 cues right, at rung 2 of 5. (2 sets.)"
    )


def test_no_share_and_no_range_is_given_of_a_partners_ticks(club):
    phone = club.phone()
    sets = [by_partner(phone, day=f"2026-03-{day:02}", card=str(day)) for day in range(2, 8)]
    club.browser.push(*sets)
    (told,) = partners(club)
    assert told["given"] == 60
    assert "%" not in told["words"] and "in 10" not in told["words"]


def test_a_card_that_came_back_empty_says_so(club):
    club.browser.push(by_partner(club.phone(), ticks="-" * CLEAN))
    (told,) = partners(club)
    assert told["words"] == "A partner's card for rung 1 of 5 came back empty."


def test_a_correction_counts_instead_whatever_arrives_first_and_taken_back_it_counts_nowhere(club):
    phone = club.phone()
    first = by_partner(phone, ticks="0" * CLEAN)
    second = by_partner(phone, of=first, ticks="1" * 5 + "0" * 5)
    third = by_partner(phone, of=first, ticks="1" * CLEAN)
    back = taken_back(phone, first)
    club.browser.push(third, first)
    assert partners(club)[0]["right"] == CLEAN
    club.browser.push(second)
    assert partners(club)[0]["right"] == CLEAN
    club.browser.push(back)
    assert partners(club) == []


def test_a_card_that_two_coaches_entered_counts_once_as_it_was_entered_last(club):
    phone = club.phone(club.add_coach("Rike", "coach"))
    rike = club.sign_in("Rike")
    club.browser.push(by_partner(club.phone(), ticks="0" * CLEAN))
    late = by_partner(phone, day="2026-03-03")
    assert statuses(rike.push(late)) == ["stored"]
    (told,) = partners(club)
    assert (told["right"], told["given"], told["sets"]) == (CLEAN, CLEAN, 1)


def test_it_moves_no_rung_and_is_no_lesson(club):
    climbed(club, {})
    before = db.session.scalars(select(Standing.walk)).all()
    club.browser.push(by_partner(club.phone(), ticks="0" * CLEAN))
    db.session.remove()
    assert db.session.scalars(select(Standing.walk)).all() == before


def test_a_whole_card_all_right_is_told_beside_the_settings_once_the_rung_has_held(club):
    club.add_coach("Rike", "coach")
    ready = climbed(club, {})
    top = len(chart_of(club.chart).places) - 1
    early = by_partner(ready, day=DAY.isoformat(), place=top)
    club.browser.push(early)
    assert where(club) is None, "a partner makes nothing secure"
    taught(club, 7, {})
    assert where(club)["claim"] == "where.one_coach", "what was before the first hold says nothing"
    club.browser.push(
        by_partner(club.phone(), day="2026-03-12", place=top, card="B", ticks="1" * 9 + "0"),
        by_partner(club.phone(), day="2026-03-13", place=0, card="C"),
    )
    assert where(club)["claim"] == "where.one_coach", "one slip in it; and a plainer cue"
    alone = where(club)["words"]
    club.browser.push(by_partner(club.phone(), day="2026-03-13", place=top, card="D"))
    told = where(club)
    too = " It held with a partner, too, by the partner's own ticks."
    assert (told["claim"], told["settings"]) == ("where.partner", 1)
    assert told["words"] == alone + too
    assert told["unnamed"] == "So far it held with one coach." + too


def test_a_partners_card_reaches_no_goal(club):
    club.add_coach("Rike", "coach")
    climbed(club, {})
    taught(club, 7, {})
    top = len(chart_of(club.chart).places) - 1
    club.browser.push(by_partner(club.phone(), day="2026-03-13", place=top))
    give_goal(club)
    (goal,) = club.browser.get(f"/api/fencers/{club.fencer}/goals").get_json()["goals"]
    assert (goal["settings"], goal["reached"]) == (1, False)


@pytest.mark.parametrize(
    ("fields", "name", "says"),
    [
        ({"chart": "c2.00"}, "chart", "no chart of this drill"),
        ({"place": 99}, "place", "between 0 and 4"),
        ({"ticks": "111"}, "ticks", "as many as the cues: 10"),
        ({"ticks": "11x"}, "ticks", "one of 1, 0, -"),
        ({"cues": ""}, "cues", "1 to 40 letters"),
        ({"fencer": "01890a5d-ac96-774b-bcce-b302099a8057"}, "fencer", "unknown fencer"),
        ({"drill": "01890a5d-ac96-774b-bcce-b302099a8057"}, "drill", "unknown drill"),
    ],
)
def test_what_cannot_be_is_refused_with_the_reason(club, fields, name, says):
    assert len(chart_of(club.chart).places) == 5
    told = why(club, by_partner(club.phone(), **fields))
    assert list(told) == [name] and says in told[name][0]


def test_a_correction_of_what_is_not_there_or_is_a_bout_or_another_coachs_is_refused(app, club):
    phone = club.phone()
    ours = by_partner(phone)
    assert "unknown set" in why(club, by_partner(phone, of=ours))["type"][0]
    club.browser.push(ours)
    crossed = {**phone.event("bout_voided"), "lesson": ours["id"]}
    assert "unknown bout" in why(club, crossed)["type"][0]
    theirs = club.phone(club.add_coach("Rike", "coach"))
    rike = club.sign_in("Rike")
    answer = rike.push(by_partner(theirs, of=ours))["results"][0]
    assert "only who entered the set" in answer["why"]["type"][0]
    other = Club(app, "Other")
    elsewhere = by_partner(other.phone(), of=ours)
    assert "unknown set" in why(other, elsewhere)["type"][0]


def test_nothing_dated_past_tomorrow_counts_yet(club):
    club.browser.push(by_partner(club.phone(), day="2100-01-01"))
    assert sets_of(club.id, club.fencer) == []
    assert len(db.session.scalars(select(PartnerSet)).all()) == 1


def test_the_export_has_the_set_without_its_partner_and_erasing_leaves_none(club):
    club.browser.push(by_partner(club.phone()))
    exported = club.browser.get(f"/api/fencers/{club.fencer}/export").get_json()
    (row,) = exported["partner_sets"]
    assert row["ticks"] == "1" * CLEAN
    assert not [name for name in row if "partner" in name]
    club.browser.send("DELETE", f"/api/fencers/{club.fencer}")
    db.session.remove()
    assert db.session.scalars(select(PartnerSet)).all() == []
    assert db.session.scalars(select(Event).where(Event.type == "partner_marked")).all() == []
