"""What a head coach settles on the club's records: lessons without a day, marks of others."""

import json
from datetime import date
from uuid import uuid4

import pytest
from playwright.sync_api import expect
from uuid_utils import uuid7

from tests.browser.test_access import Inspector

pytestmark = pytest.mark.browser


def api(page, salle, path, body=None):
    """Ask the server as the coach who is signed in."""
    url, headers = f"{salle.phone.url}{path}", {"X-Cue-Ladder": "1"}
    if body is None:
        return page.context.request.get(url).json()
    return page.context.request.post(url, data=body, headers=headers).json()


def lesson(fencer, coach, day):
    """A lesson as a phone writes it, with a note in it."""
    opened = str(uuid7())
    shared = {"device": str(uuid4()), "coach": coach, "lesson": opened,
              "at": f"{day}T18:20:00.000+01:00"}  # fmt: skip
    return [
        {"id": opened, "type": "lesson_opened", "n": 1, "fencer": fencer, "day": day, **shared},
        {"id": str(uuid7()), "type": "note_written", "n": 2, "text": "x", "drill": None, **shared},
    ]


def test_lessons_of_a_phone_whose_clock_was_wrong_are_settled_and_removed(salle):
    page = salle.open()
    coach = api(page, salle, "/api/session")["coach"]["id"]
    fencer = api(page, salle, "/api/fencers")["fencers"][0]
    for day in ("2100-01-01", "2099-01-01"):
        sent = lesson(fencer["id"], coach, day)
        results = api(page, salle, "/api/events", {"events": sent})["results"]
        assert {one["status"] for one in results} == {"stored"}
    page.goto(f"{salle.phone.url}/records")
    rows = page.get_by_test_id("lesson-waiting")
    expect(rows).to_have_count(2)
    inspector = Inspector(page)
    inspector.look("records of the club with lessons waiting")
    assert inspector.found == []
    row = rows.filter(has_text="2100")
    expect(row).to_contain_text(f"{fencer['nickname']} with {salle.coach}")
    expect(row.get_by_label("Day it was given")).to_have_value(date.today().isoformat())
    row.get_by_label("Day it was given").fill("2026-03-02")
    row.get_by_role("button", name="Set this day").click()
    expect(page.get_by_test_id("lessons-waiting-told")).to_contain_text("is on its day")
    expect(rows).to_have_count(1)
    rows.get_by_test_id("lesson-remove").click()
    rows.get_by_test_id("lesson-remove-yes").click()
    expect(page.get_by_test_id("lessons-waiting-told")).to_contain_text("is removed")
    expect(rows).to_have_count(0)
    page.reload()
    expect(page.get_by_test_id("audit")).to_contain_text("removed a lesson")
    expect(page.get_by_test_id("audit")).to_contain_text("moved a lesson to another day")


@pytest.mark.thorough
def test_a_file_of_what_another_coach_could_not_send_is_taken_in(salle, tmp_path):
    page = salle.open()
    fencer = api(page, salle, "/api/fencers")["fencers"][0]
    me = api(page, salle, "/api/session")["coach"]["id"]
    other = next(one for one in api(page, salle, "/api/club")["coaches"] if one["id"] != me)
    sent = lesson(fencer["id"], other["id"], "2026-03-02")
    file = tmp_path / "unsent.json"
    page.goto(f"{salle.phone.url}/records")
    card = page.get_by_test_id("others-marks")
    file.write_text("no such file")
    card.get_by_test_id("others-file").set_input_files(file)
    expect(card).to_contain_text("no file of what is not sent")
    file.write_text(json.dumps({"entries": [{"event": event} for event in sent], "edits": []}))
    card.get_by_test_id("others-file").set_input_files(file)
    expect(page.get_by_test_id("others-marks-told")).to_contain_text("2 entries are taken in.")
    file.write_text(json.dumps({"entries": [{"event": {**sent[1], "text": "y"}}]}))
    card.get_by_test_id("others-file").set_input_files(file)
    expect(page.get_by_test_id("others-marks-told")).to_contain_text("1 entry is refused: same id")
    page.reload()
    expect(page.get_by_test_id("audit")).to_contain_text("took in what another coach marked")
