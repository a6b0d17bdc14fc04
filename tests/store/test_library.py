"""Drill files, bulk import, clubs and coaches."""

import json

import pytest

from cueladder.rules import RuleError
from cueladder.store.access.clubs import add_coach
from cueladder.store.drills.library import add_library, library
from cueladder.store.drills.versions import drills_of
from cueladder.store.log.seed import import_events
from cueladder.store.problems import Refused
from tests.drills import document


def write(folder, name, doc):
    (folder / f"{name}.json").write_text(doc if isinstance(doc, str) else json.dumps(doc))


def test_every_starter_drill_is_a_drill_named_as_its_file():
    documents = library()
    assert documents
    assert len({doc["slug"] for doc in documents}) == len(documents)


def test_a_club_gets_each_starter_drill_once(club, tmp_path):
    for slug in ("one", "two"):
        write(tmp_path, slug, document(slug=slug))
    assert [add_library(club.id, tmp_path) for _ in range(2)] == [2, 0]
    assert {drill.slug for drill, _ in drills_of(club.id)} >= {"one", "two"}


@pytest.mark.parametrize(
    ("doc", "field"),
    [
        (document(slug="other"), "one.json: slug"),
        (document(slug="one", kind="juggling"), "one.json: kind"),
        ("{", "one.json"),
    ],
)
def test_a_bad_drill_file_is_named_with_its_field(tmp_path, doc, field):
    write(tmp_path, "one", doc)
    with pytest.raises(RuleError) as caught:
        library(tmp_path)
    assert caught.value.field == field


def test_many_events_of_several_coaches_come_in_at_once(club):
    odile = club.phone(club.add_coach("Odile", "coach"))
    events = []
    for k, phone in enumerate([club.phone(), odile]):
        events += [phone.open(day=f"2026-03-0{k + 2}"), *phone.cues(16)]
    assert import_events(club.row, events, batch=7) == 34
    assert import_events(club.row, events) == 0
    (standing,) = club.browser.get("/api/standings").get_json()["standings"]
    assert standing["day"] == "2026-03-03"
    assert standing["secure"] == "secure"


def test_an_import_stops_at_a_bad_event_and_says_which(club):
    phone = club.phone()
    bad = {**phone.cue(), "mark": "lucky"}
    with pytest.raises(Refused, match=bad["id"]):
        import_events(club.row, [phone.open(), bad])


@pytest.mark.parametrize(
    ("name", "passphrase", "role", "field"),
    [
        ("", "long enough it is", "coach", "name"),
        ("Odile", "short", "coach", "passphrase"),
        ("Odile", "long enough it is", "king", "role"),
        ("ANSGAR of  Halle Nord Fencing Circle", "long enough it is", "coach", "name"),
    ],
)
def test_a_coach_who_cannot_be_added_is_refused_by_field(club, name, passphrase, role, field):
    with pytest.raises(Refused) as caught:
        add_coach(club.id, name, passphrase, role)
    assert caught.value.field == field
