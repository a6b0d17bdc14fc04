"""What coaches noted: at the next start and in the story, and never before observers."""

from datetime import date, timedelta

TODAY = date(2026, 3, 16)


def lesson(club, day, *texts):
    """A lesson with notes."""
    phone = club.phone()
    notes = [{"type": "note_written", "text": text, "drill": None} for text in texts]
    club.browser.push(
        phone.open(day.isoformat()),
        *(phone.event(note.pop("type"), **note) | {"lesson": phone.lesson} for note in notes),
    )


def booked(club, day):
    body = {"day": day.isoformat(), "fencer": club.fencer, "at": "17:20"}
    assert club.browser.post("/api/bookings", body).status_code == 201


def told(browser, day=TODAY):
    return browser.get(f"/api/club?day={day}").get_json()["notes"]


def test_the_last_lesson_s_notes_come_with_the_club_for_whoever_is_booked(club):
    lesson(club, TODAY - timedelta(days=14), "Drops the guard.")
    lesson(club, TODAY - timedelta(days=7), "Better.", "Sleepy at the end.")
    assert told(club.browser) == []
    booked(club, TODAY)
    assert told(club.browser) == [
        {"fencer": club.fencer, "day": "2026-03-09", "texts": ["Better.", "Sleepy at the end."]}
    ]


def test_a_last_lesson_without_a_note_tells_none_of_an_older_one(club):
    lesson(club, TODAY - timedelta(days=14), "Drops the guard.")
    lesson(club, TODAY - timedelta(days=7))
    booked(club, TODAY + timedelta(days=3))
    assert told(club.browser) == []


def test_the_story_has_all_notes_newest_first(club):
    lesson(club, TODAY - timedelta(days=14), "Drops the guard.")
    lesson(club, TODAY - timedelta(days=7), "Better.")
    notes = club.browser.get(f"/api/fencers/{club.fencer}/story").get_json()["notes"]
    assert [(note["day"], note["text"]) for note in notes] == [
        ("2026-03-09", "Better."),
        ("2026-03-02", "Drops the guard."),
    ]
    assert {note["coach"] for note in notes} == {"Ansgar of Halle Nord Fencing Circle"}


def test_an_observer_is_told_no_note(club):
    lesson(club, TODAY - timedelta(days=7), "Better.")
    booked(club, TODAY)
    club.add_coach("Runa", "observer")
    runa = club.sign_in("Runa")
    assert told(runa) == []
    assert runa.get(f"/api/fencers/{club.fencer}/story").get_json()["notes"] == []
