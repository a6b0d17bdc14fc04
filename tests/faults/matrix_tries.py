"""How each route is tried: by whom, with what, and what must come of it. Not a test module."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from uuid_utils import uuid7

from cueladder.api.guard import COACHES, EVERYONE, HEADS
from cueladder.store.db.engine import now
from tests.drills import document
from tests.faults.world import IN, World
from tests.store.club import PASSPHRASE

NEW = "quite another phrase"
BAD = "00000000-0000-4000-8000-000000000000"
Route = tuple[str, str]


class Named:
    """The things a try may name; one of them may be put in another's place.

    Attributes:
        asked: what has been asked for.
    """

    def __init__(self, world: World, role: str, swap: str | None = None, kind: str = "own") -> None:
        self.world, self.role, self.swap, self.kind = world, role, swap, kind
        self.asked: list[str] = []

    def __getitem__(self, name: str) -> str:
        self.asked.append(name)
        if name != self.swap:
            return self.world.device_of(self.role) if name == "device" and self.role in IN else (
                self.world.own[name])  # fmt: skip
        return {"bad": BAD}.get(self.kind) or getattr(self.world, self.kind)[name]

    def has(self, name: str, kind: str) -> bool:
        """Whether there is such a thing."""
        return kind == "bad" or name in getattr(self.world, kind)

    def event(self, kind: str, **fields: Any) -> dict[str, Any]:
        """An event of whoever has the role."""
        me = self.world.coaches.get(self.role, self.world.own["coach"])
        made = {"id": str(uuid7()), "type": kind, "device": BAD, "n": 1, "coach": me}
        return {**made, "at": "2026-03-02T18:20:00.000+01:00", **fields}


@dataclass(frozen=True)
class Try:
    """How a route is tried.

    Attributes:
        roles: who gets in; None for a route without a sign-in.
        body, query: from what it names.
        well: statuses of a try in which all is one's own.
        silent: things that are answered with success though they are another's or gone, and why
            that is no harm.
        keeps: trying it leaves the other things as they are, so that no new world is needed.
        form: the body goes as a form.
        args: what stands for a part of the address that is no thing: a picture's name, say.
    """

    roles: tuple[str, ...] | None
    body: Callable[[Named], Any] | None = None
    query: Callable[[Named], dict[str, Any]] | None = None
    well: tuple[int, ...] = (200, 201, 202, 204)
    silent: dict[str, str] = field(default_factory=dict)
    keeps: bool = False
    form: bool = False
    args: dict[str, str] = field(default_factory=dict)


def _lesson(o: Named) -> list[dict[str, Any]]:
    """What a phone sends: a coach gives a lesson, an observer notes something in one."""
    if o.role == "observer":
        return [o.event("note_written", lesson=o["lesson"], text="x", drill=o["drill"])]
    opened = o.event("lesson_opened", fencer=o["fencer"], day="2026-03-16")
    opened["lesson"] = opened["id"]
    marked = {"place": 0, "given": "attack", "mark": "correct", "tense": False}
    cue = o.event("cue_marked", lesson=opened["id"], drill=o["drill"], chart=o["chart"],
                  loud=None, wait=None, n=2, **marked)  # fmt: skip
    return [opened, cue]


def _drill(o: Named) -> dict[str, Any]:
    return {"document": document(slug="another", rule={"family": "run", "n": 9})}


def _entering(o: Named) -> dict[str, Any]:
    return {"code": o["letters"], "name": f"Guest {uuid7()}", "passphrase": PASSPHRASE}


EVENTS = "each event is judged on its own, in the reply"
LINK = "whoever has a link may open it"
CODE = "a code is for whoever has it, of any club"
PUSHED = {name: EVENTS for name in ("fencer", "drill", "chart", "lesson")}
_FREE = Try(None)
TRIES: dict[Route, Try] = {
    ("GET", "/"): _FREE,
    ("GET", "/<path:name>"): Try(None, args={"name": "today"}),
    ("GET", "/guide/"): _FREE,
    ("GET", "/guide/<name>"): Try(None, args={"name": "care"}),
    ("GET", "/guide/files.json"): _FREE,
    ("GET", "/guide/guide.css"): _FREE,
    ("GET", "/guide/pictures/<name>"): Try(None, args={"name": "strip.png"}),
    ("GET", "/p/static/<path:filename>"): Try(None, args={"filename": "progress.css"}),
    ("GET", "/p/<token>"): Try(None, silent={"token": LINK}),
    ("GET", "/p/<token>/drill/<n>.svg"): Try(None, args={"n": "1"}, silent={"token": LINK}),
    ("POST", "/p/<token>/practice"): Try(
        None,
        lambda o: {"drill": o["drill"], "done": "yes"},
        form=True,
        well=(303,),
        silent={"token": LINK},
        keeps=True,
    ),
    ("GET", "/api/health"): _FREE,
    ("GET", "/api/openapi.json"): _FREE,
    ("GET", "/api/setup"): _FREE,
    ("POST", "/api/setup"): Try(None, lambda o: {**_entering(o), "club": "x"}, well=(401,)),
    ("POST", "/api/session"): Try(None, lambda o: {"name": "A coach", "passphrase": PASSPHRASE}),
    ("DELETE", "/api/session"): _FREE,
    ("POST", "/api/session/join"): Try(None, _entering, silent={"letters": CODE}),
    ("POST", "/api/session/pair"): Try(None, lambda o: {"code": "AAAA"}, well=(401,)),
    ("POST", "/api/session/reset"): Try(
        None, lambda o: {"code": o["letters"], "passphrase": NEW}, well=(401,)
    ),
    ("GET", "/api/session"): Try(EVERYONE),
    ("PUT", "/api/session/passphrase"): Try(
        EVERYONE, lambda o: {"old": PASSPHRASE, "passphrase": NEW}
    ),
    ("POST", "/api/pairings"): Try(EVERYONE, keeps=True),
    ("GET", "/api/invitations"): Try(HEADS),
    ("POST", "/api/invitations"): Try(HEADS, lambda o: {"role": "head"}, keeps=True),
    ("DELETE", "/api/invitations/<code_id>"): Try(HEADS),
    ("GET", "/api/coaches"): Try(HEADS),
    ("PATCH", "/api/coaches/<coach_id>"): Try(HEADS, lambda o: {"role": "observer"}),
    ("POST", "/api/coaches/<coach_id>/reset"): Try(HEADS),
    ("GET", "/api/club"): Try(EVERYONE),
    ("GET", "/api/club/overview"): Try(EVERYONE),
    ("GET", "/api/club/remnants"): Try(HEADS),
    ("GET", "/api/club/retention"): Try(HEADS, query=lambda o: {"days": 30}),
    ("GET", "/api/club/settings"): Try(HEADS),
    ("PATCH", "/api/club/settings"): Try(HEADS, lambda o: {"retention_days": 365}),
    ("GET", "/api/club/sheets/<name>.csv"): Try(COACHES, args={"name": "due"}),
    ("GET", "/api/audit"): Try(HEADS),
    ("GET", "/api/bookings"): Try(
        EVERYONE, query=lambda o: {"from": "2026-11-30", "to": "2026-12-03"}
    ),
    ("POST", "/api/bookings"): Try(
        COACHES, lambda o: {"day": "2026-12-05", "fencer": o["fencer"], "at": "20:00"}
    ),
    ("PATCH", "/api/bookings/<booking_id>"): Try(COACHES, lambda o: {"at": "20:00"}),
    ("DELETE", "/api/bookings/<booking_id>"): Try(
        COACHES, silent={"booking": "taking out what is not there is done already"}
    ),
    ("PUT", "/api/days/<day>"): Try(
        COACHES,
        lambda o: {
            "lessons": [
                {
                    "fencer": o["fencer"],
                    "at": "20:00",
                    "plan": [{"drill": o["drill"], "role": "main", "minutes": 5}],
                }
            ]
        },
        args={"day": "2026-12-03"},
    ),
    ("POST", "/api/days/<day>/same"): Try(
        COACHES, lambda o: {"of": "2026-12-01"}, args={"day": "2026-12-08"}
    ),
    ("GET", "/api/charts"): Try(
        EVERYONE,
        query=lambda o: {"ids": o["chart"]},
        silent={"chart": "charts of others are left out"},
    ),
    ("GET", "/api/charts/<chart_id>"): Try(EVERYONE),
    ("GET", "/api/competitions"): Try(EVERYONE),
    ("POST", "/api/competitions"): Try(
        COACHES, lambda o: {"id": str(uuid7()), "name": "Harbour Cup", "day": "2100-03-12"}
    ),
    ("PATCH", "/api/competitions/<competition_id>"): Try(COACHES, lambda o: {"name": "Lion Cup"}),
    # of one's own a goal stands by it
    ("DELETE", "/api/competitions/<competition_id>"): Try(COACHES, well=(409,)),
    ("GET", "/api/devices"): Try(EVERYONE),
    ("PATCH", "/api/devices/<device_id>"): Try(EVERYONE, lambda o: {"name": "Phone"}),
    ("DELETE", "/api/devices/<device_id>"): Try(EVERYONE),
    ("GET", "/api/drills"): Try(EVERYONE),
    ("POST", "/api/drills"): Try(COACHES, _drill),
    ("POST", "/api/drills/check"): Try(COACHES, _drill, keeps=True),
    ("PUT", "/api/drills/<drill_id>"): Try(COACHES, lambda o: {**_drill(o), "archived": False}),
    ("POST", "/api/drills/<drill_id>/effect"): Try(COACHES, _drill, keeps=True),
    ("GET", "/api/drills/<drill_id>/versions"): Try(EVERYONE),
    ("POST", "/api/drills/<drill_id>/fencers/<fencer_id>/odds"): Try(
        EVERYONE, lambda o: {"rule": {"family": "run", "n": 9}}, keeps=True
    ),
    ("GET", "/api/events"): Try(EVERYONE),
    ("POST", "/api/events"): Try(EVERYONE, lambda o: {"events": _lesson(o)}, silent=PUSHED),
    ("POST", "/api/events/others"): Try(HEADS, lambda o: {"events": _lesson(o)}, silent=PUSHED),
    ("GET", "/api/standings"): Try(EVERYONE),
    ("GET", "/api/fencers"): Try(EVERYONE),
    ("POST", "/api/fencers"): Try(COACHES, lambda o: {"nickname": "Runa", "weapon": "foil"}),
    ("PATCH", "/api/fencers/<fencer_id>"): Try(COACHES, lambda o: {"nickname": "Runa"}),
    ("DELETE", "/api/fencers/<fencer_id>"): Try(HEADS),
    ("GET", "/api/fencers/<fencer_id>/audit"): Try(HEADS),
    ("GET", "/api/fencers/<fencer_id>/changes"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/comfort.svg"): Try(EVERYONE),
    ("GET", "/api/fencers/<fencer_id>/drills/<drill_id>/<name>.svg"): Try(
        EVERYONE, args={"name": "course"}
    ),
    ("GET", "/api/fencers/<fencer_id>/export"): Try(HEADS),
    ("GET", "/api/fencers/<fencer_id>/export.zip"): Try(HEADS),
    ("GET", "/api/club/draws"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/draws"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/draws/outlook"): Try(
        COACHES, query=lambda o: {"drills": 4, "days": 12}
    ),
    ("POST", "/api/fencers/<fencer_id>/draws"): Try(
        COACHES,
        lambda o: {
            "id": str(uuid7()),
            "drills": [o["drill_a"], o["drill_b"], o["drill_c"]],
            "first": now().astimezone().date().isoformat(),
            "every": 7,
            "days": 8,
        },
    ),
    ("DELETE", "/api/fencers/<fencer_id>/draws/<draw_id>"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/goals"): Try(EVERYONE),
    ("PUT", "/api/fencers/<fencer_id>/goals/<drill_id>"): Try(
        COACHES, lambda o: {"competition": o["competition"]}
    ),
    ("DELETE", "/api/fencers/<fencer_id>/goals/<drill_id>"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/season"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/links"): Try(COACHES),
    ("POST", "/api/fencers/<fencer_id>/links"): Try(COACHES, lambda o: {"days": 7}, keeps=True),
    ("DELETE", "/api/fencers/<fencer_id>/links"): Try(COACHES),
    ("DELETE", "/api/fencers/<fencer_id>/links/<link_id>"): Try(COACHES),
    ("GET", "/api/fencers/<fencer_id>/plan"): Try(EVERYONE),
    ("GET", "/api/fencers/<fencer_id>/record"): Try(HEADS),
    ("GET", "/api/fencers/<fencer_id>/story"): Try(EVERYONE),
    ("GET", "/api/imports"): Try(COACHES),
    ("POST", "/api/imports"): Try(
        COACHES, lambda o: {"id": str(uuid7()), "text": "nickname,weapon\nRuna,foil\n"}
    ),
    ("POST", "/api/imports/preview"): Try(
        COACHES, lambda o: {"text": "nickname,weapon\nRuna,foil\n"}, keeps=True
    ),
    ("GET", "/api/imports/example.csv"): Try(COACHES),
    ("DELETE", "/api/imports/<import_id>"): Try(COACHES),
    ("GET", "/api/lessons/waiting"): Try(HEADS),
    ("PATCH", "/api/lessons/<lesson_id>"): Try(HEADS, lambda o: {"day": "2026-03-20"}),
    ("DELETE", "/api/lessons/<lesson_id>"): Try(HEADS),
    ("GET", "/api/lessons/<lesson_id>/after"): Try(EVERYONE),
    ("GET", "/api/lessons/<lesson_id>/cues"): Try(EVERYONE),
    ("GET", "/api/club/learning"): Try(HEADS),
    ("POST", "/api/club/learning"): Try(HEADS),
    ("GET", "/api/club/learning/numbers"): Try(HEADS),
    # nothing is suggested from a handful of marks
    ("POST", "/api/club/learning/<kind>/<what>"): Try(
        HEADS, well=(404,), args={"kind": "sensitization", "what": "rule"}
    ),
    ("DELETE", "/api/club/learning/<kind>/<what>"): Try(
        HEADS, well=(404,), args={"kind": "sensitization", "what": "rule"}
    ),
    ("GET", "/api/club/learning/<kind>/<name>.svg"): Try(
        HEADS, well=(404,), args={"kind": "sensitization", "name": "rung"}
    ),
    ("POST", "/api/rules/odds"): Try(
        EVERYONE, lambda o: {"rule": {"family": "run", "n": 9}}, keeps=True
    ),
    ("GET", "/api/rules/settings"): Try(EVERYONE, query=lambda o: {"kind": "discrimination"}),
    ("GET", "/api/rules/odds.svg"): Try(
        EVERYONE, query=lambda o: {"rule": '{"family": "run", "n": 9}'}
    ),
}
