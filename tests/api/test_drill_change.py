"""Writing drills, and changing one that fencers are in the middle of."""

import json

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db
from cueladder.store.db.models import Audit, Event, LessonDrill
from tests.drills import READ, SCALES, document
from tests.store.club import Club, statuses

RUN_8 = {"family": "run", "n": 8}
# the drill with one more grade of size, and so one more rung in the middle
LONGER = {
    "scales": {
        **SCALES,
        "size": {"family": "read", "grades": ["whole arm", "half an arm", "forearm", "wrist"]},
    },
    "read": [READ[0], *({**row, "size": row["size"] + 1} for row in READ)],
}


def unnamed(**changes):
    made = document(**changes)
    del made["slug"]
    return made


def put(club, **changes):
    body = {"document": document(**changes)}
    return club.browser.send("PUT", f"/api/drills/{club.drill}", body).get_json()


def check(club, **changes):
    return club.browser.post("/api/drills/check", {"document": unnamed(**changes)}).get_json()


def effect(club, **changes):
    body = {"document": unnamed(**changes)}
    return club.browser.post(f"/api/drills/{club.drill}/effect", body).get_json()


def past():
    """Everything stored of the lessons, as it stands in the database."""
    events = [(e.id, json.dumps(e.payload)) for e in db.session.scalars(select(Event))]
    rows = [
        (d.lesson_id, json.dumps([d.before, d.after]), d.trials)
        for d in db.session.scalars(select(LessonDrill))
    ]
    db.session.rollback()
    return sorted(events), sorted(rows)


def walk_of(club):
    (standing,) = club.browser.get("/api/standings?after=0").get_json()["standings"]
    return standing["walk"]


def test_a_draft_is_told_its_errors_and_offers_and_nothing_is_stored(club):
    told = check(club, read=[READ[0], READ[2]])
    assert list(told["errors"]) == ["read[1]"]
    assert (
        "rung 1 (whole arm · slow) to rung 2 (forearm · half speed)" in told["errors"]["read[1]"][0]
    )
    assert len(told["ladders"]["read"]["rungs"][1]["before"]) == 2
    assert check(club)["errors"] == {}
    assert len(club.browser.get("/api/drills").get_json()["drills"]) == 1


def test_a_copy_without_a_slug_gets_a_free_one_from_its_name(club):
    first = club.browser.post("/api/drills", {"document": unnamed(name="Parade d’épée!")})
    second = club.browser.post("/api/drills", {"document": unnamed(name="Parade d’épée!")})
    assert [first.status_code, second.status_code] == [201, 201]
    slugs = [answer.get_json()["slug"] for answer in (first, second)]
    assert slugs == ["parade-depee", "parade-depee-2"]
    assert first.get_json()["document"]["slug"] == "parade-depee"
    nameless = club.browser.post("/api/drills", {"document": unnamed(name="防守")})
    assert nameless.get_json()["slug"] == "drill"


def test_a_drill_says_whose_it_is_and_its_rule_in_words(club):
    (starter,) = club.browser.get("/api/drills").get_json()["drills"]
    assert not starter["own"]
    assert starter["rule"].startswith("Climbs at 15 clean answers; a slip costs 10.")
    assert "After 40 cues at one rung" in starter["rule"]
    changed = put(club, rule=RUN_8, cap=30)
    assert changed["own"]
    assert changed["rule"].startswith("Climbs after 8 clean answers in a row. 2 misses in a row")
    assert "After 30 cues" in changed["rule"]


def test_archiving_and_restoring_makes_no_version(club):
    for archived in (True, False):
        body = {"document": document(), "archived": archived}
        told = club.browser.send("PUT", f"/api/drills/{club.drill}", body).get_json()
        assert (told["archived"], told["version"]) == (archived, 1)


def test_a_change_in_mid_season_leaves_every_past_mark_as_it_was_judged(club):
    phone = club.phone()
    # 15 right climb under the old rule; two more on the second rung
    club.browser.push(phone.open(), *phone.cues(17))
    before = past()
    assert walk_of(club)["place"] == 1
    changed = put(club, rule=RUN_8, **LONGER)
    assert changed["chart"] != club.chart
    assert past() == before

    # a lesson later under the new chart: same cue, a fresh count, and 8 right climb
    later = club.phone()
    opened = later.open("2026-03-05")
    marks = later.cues(8, chart=changed["chart"], place=2)
    reply = club.browser.push(opened, *marks)
    assert set(statuses(reply)) == {"stored"}
    events, rows = past()
    assert set(before[0]) <= set(events)
    assert set(before[1]) <= set(rows)
    walk = walk_of(club)
    assert walk["chart"] == changed["chart"]

    # a mark of the old lesson that comes late is still judged by the old chart
    late = phone.cue("late")
    assert statuses(club.browser.push(late)) == ["stored"]
    folded = {row[0]: json.loads(row[1])[1] for row in past()[1]}
    assert folded[phone.lesson]["chart"] == club.chart
    assert folded[later.lesson]["chart"] == changed["chart"]


def test_the_fencer_goes_on_at_the_rung_with_the_same_words(club):
    phone = club.phone()
    club.browser.push(phone.open(), phone.set_rung(2), *phone.cues(3, place=2))
    changed = put(club, **LONGER)
    # the same lesson goes on: the phone has fetched the new chart
    reply = club.browser.push(phone.cue(chart=changed["chart"], place=3))
    (standing,) = reply["standings"]
    assert standing["walk"]["place"] == 3
    assert standing["suggestion"]["cue"] == ["forearm · half speed"]
    # neither the rule nor the words of the rung have changed: the count goes on
    assert standing["suggestion"]["progress"] == [{"of": "all", "have": 4, "need": 15}]


def test_before_saving_the_coach_is_told_who_is_in_the_middle_of_it(club):
    assert "Nobody has worked" in effect(club, rule=RUN_8)["words"]
    phone = club.phone()
    club.browser.push(phone.open(), phone.set_rung(3), *phone.cues(2, place=3))
    told = effect(club, rule=RUN_8, read=READ[:3])
    assert told["judged"]
    assert told["words"].startswith("1 fencer is in the middle of this drill.")
    assert "Another cue than now: Mila." in told["words"]
    (mila,) = told["fencers"]
    assert (mila["nickname"], mila["running"], mila["same"]) == ("Mila", True, False)
    assert mila["now"] == {"rung": "rung 4 of 5", "cue": "wrist · half speed"}
    assert mila["then"] == {"rung": "rung 3 of 3", "cue": "forearm · half speed"}
    (same,) = effect(club, **LONGER)["fencers"]
    assert same["same"] and same["then"]["rung"] == "rung 5 of 6"
    club.browser.push(phone.event("lesson_closed"))
    (ended,) = effect(club, rule=RUN_8)["fencers"]
    assert not ended["running"]


def test_new_words_alone_disturb_nobody(club):
    phone = club.phone()
    club.browser.push(phone.open(), phone.cue())
    told = effect(club, name="Another name", how="Slowly.")
    assert (told["judged"], told["fencers"]) == (False, [])


def test_a_drill_that_cannot_be_used_has_no_effect_but_an_error(club):
    body = {"document": unnamed(read=[READ[0], READ[2]])}
    answer = club.browser.post(f"/api/drills/{club.drill}/effect", body)
    assert (answer.status_code, list(answer.get_json()["errors"])) == (422, ["read[1]"])


def test_every_version_says_who_changed_what(club):
    put(club, name="Small parry")
    put(club, name="Small parry", rule=RUN_8)
    told = club.browser.get(f"/api/drills/{club.drill}/versions").get_json()["versions"]
    assert [(one["version"], one["changed"], one["coach"]) for one in told] == [
        (3, ["rule"], "Ansgar of Halle Nord Fencing Circle"),
        (2, ["name"], "Ansgar of Halle Nord Fencing Circle"),
        (1, [], None),
    ]
    assert told[0]["rule"].startswith("Climbs after 8")


def what_if(club, rule, drill=None, fencer=None):
    path = f"/api/drills/{drill or club.drill}/fencers/{fencer or club.fencer}/odds"
    return club.browser.post(path, {"rule": rule})


def test_another_rule_is_tried_on_the_fencers_own_marks(club):
    phone = club.phone()
    opened = phone.open()
    marks = [phone.cue("late" if k % 6 == 5 else "correct") for k in range(36)]
    club.browser.push(opened, *marks)
    told = what_if(club, RUN_8).get_json()
    assert not told["few"]
    assert told["seen"] == (
        "Mila is at rung 1 of 5 (whole arm · slow), right there in 30 of 36 (83 %) cues lately."
    )
    present, edited = told["present"], told["edited"]
    assert edited["climb"] > 2 * present["climb"]
    assert edited["climb_low"] < edited["climb"] < edited["climb_high"]
    assert edited["cues_low"] < edited["cues"] < edited["cues_high"]
    assert f"about {round(100 * edited['climb'])} times in 100" in edited["words"]
    assert told["words"].startswith("The new rule sends Mila up more often")
    assert told["rule"].startswith("Climbs after 8 clean answers")
    present_rule = document()["rule"]
    same = what_if(club, present_rule).get_json()
    assert same["present"] == same["edited"]
    assert same["words"] == "For Mila the two rules hardly differ."
    looks = db.session.scalars(select(Audit.action).where(Audit.fencer_id == club.fencer)).all()
    assert looks.count("looked") == 1


def test_the_odds_are_the_fencers_own(club):
    jona = club.add_fencer("Jona")
    for fencer, wrong in ((club.fencer, 4), (jona, 30)):
        phone = club.phone()
        opened = phone.open(fencer=fencer)
        marks = [phone.cue("late" if k % wrong == 3 else "correct") for k in range(14)]
        club.browser.push(opened, *marks)
    slips, clean = (what_if(club, RUN_8, fencer=f).get_json() for f in (club.fencer, jona))
    assert not slips["few"] and not clean["few"]
    assert slips["edited"]["climb"] < clean["edited"]["climb"]


def test_few_cues_are_said_to_be_few_and_give_no_percentage(club):
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(4))
    told = what_if(club, RUN_8).get_json()
    assert told["few"]
    assert "4 of 4 cues lately. That is little to go by" in told["seen"]
    texts = [told["seen"], told["present"]["words"], told["edited"]["words"]]
    assert all("%" not in text and "in 100" not in text for text in texts)
    assert "times in 10" in told["edited"]["words"]
    other, _ = club.add_drill("discrimination")
    new = what_if(club, RUN_8, drill=other).get_json()
    assert new["few"] and "no cue there yet" in new["seen"]


def test_attacks_and_decoys_are_counted_apart(club):
    other, chart = club.add_drill("discrimination")
    phone = club.phone()
    opened = phone.open()
    attacks = phone.cues(12, drill=other, chart=chart)
    decoys = phone.cues(11, drill=other, chart=chart, given="decoy")
    club.browser.push(opened, *attacks, *decoys)
    told = what_if(club, RUN_8, drill=other).get_json()
    assert "12 of 12 (100 %) cues to answer and 11 of 11 (100 %) cues to leave" in told["seen"]


@pytest.mark.parametrize(
    ("rule", "field"),
    [({"family": "run", "n": 1}, "rule.n"), ({}, "rule.family"), ("run", "rule"), (None, "rule")],
)
def test_a_rule_that_cannot_be_is_refused_by_its_field(club, rule, field):
    answer = what_if(club, rule)
    assert (answer.status_code, list(answer.get_json()["errors"])) == (422, [field])


def test_nothing_is_told_of_another_clubs_drills_and_fencers(app, club):
    other = Club(app, "Salle Birkenhain")
    assert what_if(club, RUN_8, drill=other.drill).status_code == 404
    assert what_if(club, RUN_8, fencer=other.fencer).status_code == 404
    body = {"document": document()}
    for drill in (other.drill, "no-id"):
        assert club.browser.post(f"/api/drills/{drill}/effect", body).status_code == 404
        assert club.browser.get(f"/api/drills/{drill}/versions").status_code == 404


def test_a_new_drill_needs_no_more_than_a_name_an_action_and_its_ladder(club):
    doc = {**document(slug="own"), "name": "Ours", "action": "Parry"}
    for field in ("purpose", "how", "safety", "alone"):
        del doc[field]
    answer = club.browser.post("/api/drills", {"document": doc})
    assert answer.status_code == 201, answer.get_json()
    assert answer.get_json()["how"] == ""
