"""Many writers at once: nothing twice, nothing lost, numbers in the order of commits."""

import threading
import uuid

import pytest

from cueladder.store.db.engine import db
from cueladder.store.fencers.draws import draw, draws_of
from cueladder.store.log.audit import audit_of, note_look
from cueladder.store.log.cursor import events_after
from cueladder.store.problems import Refused
from tests.store.test_draws import fresh_drills, today


def at_once(app, jobs):
    """Run jobs in threads that start together, each in its own context; re-raise what fails."""
    gate, failed = threading.Barrier(len(jobs)), []

    def run(job):
        try:
            with app.app_context():
                gate.wait(10)
                job()
        except BaseException as error:
            failed.append(error)

    threads = [threading.Thread(target=run, args=(job,)) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(30)
    assert not any(thread.is_alive() for thread in threads)
    if failed:
        raise failed[0]


def test_the_same_batch_from_two_threads_is_stored_once(app, club):
    phone = club.phone()
    batch = [phone.open(), *phone.cues(40)]
    replies = []
    browsers = [club.sign_in("Ansgar of Halle Nord Fencing Circle") for _ in range(2)]
    at_once(app, [lambda b=b: replies.append(b.push(*batch)) for b in browsers])
    found = sorted({r["status"] for r in reply["results"]}.pop() for reply in replies)
    assert found == ["already", "stored"]
    events = club.browser.get("/api/events").get_json()["events"]
    assert sorted(e["id"] for e in events) == sorted(e["id"] for e in batch)
    standing = club.browser.get("/api/standings").get_json()["standings"][0]
    assert standing["walk"]["met"] is not None


def test_a_reader_never_skips_an_event_while_others_write(app, club):
    writers, each = 4, 12
    phones = [club.phone() for _ in range(writers)]
    for phone in phones:
        club.browser.push(phone.open())
    browsers = [club.sign_in("Ansgar of Halle Nord Fencing Circle") for _ in phones]
    done = threading.Event()
    seen = []

    def write(phone, browser):
        for _ in range(each):
            browser.push(phone.cue())

    def read():
        cursor, last = 0, False
        while True:
            last = done.is_set()
            page = events_after(club.id, club.coach, cursor, 7)
            db.session.remove()
            assert all(row["seq"] > cursor for row in page.rows)
            seen.extend(row["seq"] for row in page.rows)
            cursor = page.next
            if last and not page.more:
                return

    reader = threading.Thread(target=lambda: _in_context(app, read))
    reader.start()
    at_once(app, [lambda p=p, b=b: write(p, b) for p, b in zip(phones, browsers, strict=True)])
    done.set()
    reader.join(30)
    assert not reader.is_alive()
    db.session.remove()
    stored = [row["seq"] for row in events_after(club.id, club.coach, 0, 2000).rows]
    assert seen == stored
    assert len(stored) == writers * (each + 1)


def test_one_fencer_added_twice_at_once_is_one(app, club):
    browsers = [club.sign_in("Ansgar of Halle Nord Fencing Circle") for _ in range(3)]
    body = {"id": "01890a5d-ac96-774b-bcce-b302099a8057", "nickname": "Jona", "weapon": "epee"}
    codes = []
    at_once(
        app,
        [lambda b=b: codes.append(b.post("/api/fencers", body).status_code) for b in browsers],
    )
    assert sorted(codes) == [200, 200, 201]


@pytest.mark.parametrize("path", ["links", "days"])
def test_erasing_a_fencer_never_breaks_what_is_written_about_it_meanwhile(app, club, path):
    codes = []
    fencers = [club.add_fencer(f"Fencer {k}") for k in range(6)]
    writer = club.sign_in("Ansgar of Halle Nord Fencing Circle")

    def write():
        for fencer in fencers:
            if path == "links":
                answer = writer.post(f"/api/fencers/{fencer}/links", {})
            else:
                body = {"lessons": [{"fencer": fencer, "at": "18:20"}]}
                answer = writer.send("PUT", "/api/days/2026-03-02", body)
            codes.append(answer.status_code)

    def erase():
        for fencer in fencers:
            codes.append(club.browser.send("DELETE", f"/api/fencers/{fencer}").status_code)

    at_once(app, [write, erase])
    assert set(codes) <= {200, 201, 204, 404, 422}


def _in_context(app, job):
    with app.app_context():
        job()


def test_two_draws_at_once_of_the_same_drills_are_one_plan_and_a_refusal(app, club):
    drills, club_id, fencer, coach = fresh_drills(club), club.id, club.fencer, club.coach
    came = []

    def draw_one():
        wanted = {"id": str(uuid.uuid4()), "drills": drills, "first": today().isoformat(),
                  "every": 7, "days": 9}  # fmt: skip
        try:
            came.append(draw(club_id, fencer, wanted, coach, today())[1])
        except Refused as refused:
            came.append(refused.field)

    at_once(app, [draw_one] * 3)
    assert sorted(map(str, came)) == ["True", "drills", "drills"]
    assert len(draws_of(club.id, club.fencer)) == 1


def test_what_a_page_asks_for_at_once_is_one_look(app, club):
    club_id, fencer, coach = club.id, club.fencer, club.coach
    at_once(app, [lambda: note_look(club_id, fencer, coach)] * 4)
    entries, _ = audit_of(club_id, fencer)
    assert [entry["action"] for entry in entries].count("looked") == 1
