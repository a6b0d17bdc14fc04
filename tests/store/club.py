"""An invented club with its people, browsers and phones. Not a test module."""

from __future__ import annotations

import uuid
from typing import Any

from uuid_utils import uuid7

from cueladder.store.access.clubs import add_coach, club_named
from cueladder.store.db.engine import db
from cueladder.store.drills.versions import add_drill
from cueladder.store.fencers.edit import add_fencer
from tests.drills import document
from tests.replies import check_reply

PASSPHRASE = "plain to subtle"
# As cheap as argon2id gets: the tests sign in hundreds of times.
CHEAP = {"ARGON2": (1, 8, 1), "LEARN_AT_ONCE": True}
HEADER = {"X-Cue-Ladder": "1"}


class Browser:
    """A test client that sends our header and holds each reply to what its route declares."""

    def __init__(self, app: Any) -> None:
        self.app, self.client = app, app.test_client()

    def get(self, path: str, **kwargs: Any) -> Any:
        return self.open(path, method="GET", **kwargs)

    def send(self, method: str, path: str, body: Any = None, **kwargs: Any) -> Any:
        """Any method; a body goes as JSON."""
        if body is not None:
            kwargs["json"] = body
        return self.open(path, method=method, headers=HEADER, **kwargs)

    def open(self, path: str, **kwargs: Any) -> Any:
        """One request in a context of its own, as a server has it."""
        db.session.remove()
        with self.app.app_context():
            answer = self.client.open(path, buffered=True, **kwargs)
        check_reply(self.app, answer)
        return answer

    def post(self, path: str, body: Any = None) -> Any:
        return self.send("POST", path, body)

    def push(self, *events: dict[str, Any]) -> dict[str, Any]:
        """Push events; returns the reply."""
        answer = self.post("/api/events", {"events": list(events)})
        assert answer.status_code == 200, answer.get_data(as_text=True)
        return answer.get_json()


class Club:
    """A club with a head coach who is signed in, a fencer and a drill."""

    def __init__(self, app: Any, name: str = "Halle Nord Fencing Circle") -> None:
        self.app = app
        self.row = club_named(name)
        self.id = self.row.id
        self.coach = self.add_coach(f"Ansgar of {name}", "head")
        self.fencer = self.add_fencer("Mila")
        self.drill, self.chart = self.add_drill()
        self.browser = self.sign_in(f"Ansgar of {name}")

    def add_coach(self, name: str, role: str) -> str:
        return add_coach(self.id, name, PASSPHRASE, role).id

    def add_fencer(self, nickname: str) -> str:
        fields = {"nickname": nickname, "weapon": "foil", "hand": "left", "born": 2013}
        return add_fencer(self.id, fields)[0].id

    def add_drill(self, kind: str = "sensitization", **changes: Any) -> tuple[str, str]:
        (drill, version), _ = add_drill(self.id, document(kind, **changes))
        return drill.id, version.chart_id

    def sign_in(self, name: str, device: str | None = None) -> Browser:
        browser = Browser(self.app)
        body = {"name": name, "passphrase": PASSPHRASE, "device": device or str(uuid.uuid4())}
        answer = browser.post("/api/session", body)
        assert answer.status_code == 200, answer.get_data(as_text=True)
        return browser

    def phone(self, coach: str | None = None) -> Phone:
        return Phone(self, coach or self.coach)


class Phone:
    """Makes events as a device does: its own id, its own counter."""

    def __init__(self, club: Club, coach: str) -> None:
        self.club, self.coach = club, coach
        self.device, self.n = str(uuid.uuid4()), 0
        self.lesson: str | None = None

    def event(self, kind: str, **fields: Any) -> dict[str, Any]:
        self.n += 1
        return {
            "id": str(uuid7()),
            "type": kind,
            "device": self.device,
            "n": self.n,
            "at": "2026-03-02T18:20:00.000+01:00",
            "coach": self.coach,
            "lesson": self.lesson,
            **fields,
        }

    def open(self, day: str = "2026-03-02", **fields: Any) -> dict[str, Any]:
        opened = self.event("lesson_opened", fencer=self.club.fencer, day=day)
        self.lesson = opened["lesson"] = opened["id"]
        return {**opened, **fields}

    def cue(self, mark: str = "correct", **fields: Any) -> dict[str, Any]:
        cue = {
            "drill": self.club.drill,
            "chart": self.club.chart,
            "place": 0,
            "given": "attack",
            "mark": mark,
            "tense": False,
            "loud": None,
            "wait": 2.5,
        }
        return self.event("cue_marked", **{**cue, **fields})

    def cues(self, count: int, mark: str = "correct", **fields: Any) -> list[dict[str, Any]]:
        return [self.cue(mark, **fields) for _ in range(count)]

    def correct(self, was: dict[str, Any], mark: str, **fields: Any) -> dict[str, Any]:
        """A later correction of a mark."""
        cue = {name: was[name] for name in ("drill", "chart", "place", "given", "loud", "wait")}
        said = {**cue, "mark": mark, "tense": False, "instead_of": was["id"]}
        return self.event("cue_marked", **{**said, **fields})

    def void(self, mark: dict[str, Any]) -> dict[str, Any]:
        return self.event("mark_voided", mark=mark["id"])

    def set_rung(self, place: int, **fields: Any) -> dict[str, Any]:
        named = {"drill": self.club.drill, "chart": self.club.chart, "reason": None}
        return self.event("rung_set", **{**named, "place": place, **fields})

    def rest(self, **fields: Any) -> dict[str, Any]:
        named = {"drill": self.club.drill, "chart": self.club.chart}
        return self.event("drill_rested", **{**named, **fields})

    def seek(self, **fields: Any) -> dict[str, Any]:
        named = {"drill": self.club.drill, "chart": self.club.chart}
        return self.event("start_sought", **{**named, **fields})

    def stop(self, **fields: Any) -> dict[str, Any]:
        named = {"drill": self.club.drill, "chart": self.club.chart}
        return self.event("stop_called", **{**named, **fields})


def statuses(reply: dict[str, Any]) -> list[str]:
    """What became of each event."""
    return [result["status"] for result in reply["results"]]
