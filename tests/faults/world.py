"""Two clubs that must never hear of each other, and everything in them that can be named.

Not a test module.
"""

from __future__ import annotations

import uuid
from typing import Any

from cueladder.store.access import accounts
from cueladder.store.access.links import create_link
from cueladder.store.db.engine import db, now
from cueladder.store.fencers.draws import draw
from cueladder.store.fencers.imports import import_table
from tests.store.club import PASSPHRASE, Browser, Club

ROLES = ("head", "coach", "observer", "left", "signed out", "nobody")
IN = ROLES[:3]
TABLE = "nickname,weapon\n{name},foil\n"
# Planted in the other club; no answer to anyone of this one may hold any of it.
WORDS = ("Vexillina", "Wispeltrude", "cried over a quincejar", "Parry of xylophone", "Oddvarine")


def booked(club: Club, day: str, coach: str) -> str:
    """A lesson planned for a day; its id."""
    name = str(uuid.uuid4())
    body = {"id": name, "day": day, "fencer": club.fencer, "at": "18:20", "coach": coach}
    assert club.browser.post("/api/bookings", body).status_code == 201
    return name


class World:
    """What there is to name: in one's own club, in another, and what is gone.

    Attributes:
        own, foreign, deleted: name of a kind of thing → its id.
        browsers: for each of ROLES a browser.
        coaches: for each of ROLES the coach, where there is one.
    """

    def __init__(self, app: Any) -> None:
        self.app = app
        self.club = Club(app, "Halle Nord Fencing Circle")
        self.other = Club(app, "Salle Birkenhain")
        self.coaches = {"head": self.club.coach}
        self.browsers = {"head": self.club.browser, "nobody": Browser(app)}
        for role in ("coach", "observer"):
            self.coaches[role] = self.club.add_coach(f"A {role}", role)
            self.browsers[role] = self.club.sign_in(f"A {role}")
        self.own = self._fill(self.club, "Mila", "shy", "Parry of quarte", 12)
        self.foreign = self._fill(self.other, WORDS[0], WORDS[2], WORDS[3], 17)
        self.other.add_coach(WORDS[4], "coach")
        self.deleted = self._gone()
        self.browsers["left"] = self._left()
        self.browsers["signed out"] = self._signed_out()
        db.session.remove()

    def device_of(self, role: str) -> str:
        """A second device of whoever has the role."""
        name = "Ansgar of Halle Nord Fencing Circle" if role == "head" else f"A {role}"
        return self.club.sign_in(name).get("/api/session").get_json()["device"]

    def _fill(self, club: Club, nickname: str, note: str, drill: str, run: int) -> dict[str, str]:
        head = club.browser
        rule = {"family": "run", "n": run}
        club.drill, club.chart = club.add_drill(slug=f"named-{run}", name=drill, rule=rule)
        path = f"/api/fencers/{club.fencer}"
        head.send("PATCH", path, {"nickname": nickname, "note": note})
        for day in ("2026-03-02", "2026-03-09"):
            phone = club.phone()
            said = phone.event("note_written", text=note, drill=None)
            felt = [
                phone.event("comfort_rated", when=when, value=3) for when in ("before", "after")
            ]
            head.push(phone.open(day), *phone.cues(12), *(e | {"lesson": phone.lesson}
                                                          for e in (said, *felt)))  # fmt: skip
        ids = {"fencer": club.fencer, "drill": club.drill, "chart": club.chart,
               "lesson": phone.lesson or "", "coach": club.add_coach(f"Third {run}", "coach"),
               "day": "2026-03-09"}  # fmt: skip
        # whose a coach may change too
        coach = self.coaches["coach"] if club is self.club else club.coach
        ids["booking"] = booked(club, "2026-12-01", coach)
        table = TABLE.format(name=WORDS[1] if club is self.other else "Jona")
        made, _ = import_table(club.id, str(uuid.uuid4()), coach, table, now().date())
        ids["import"] = made.id
        code = accounts.invite(club.id, club.coach, "observer")
        ids |= {"code": code.id, "letters": code.code}
        ids |= self._drawn(club)
        ids["token"] = create_link(club.id, club.fencer, club.coach).token
        ids["link"] = head.get(f"{path}/links").get_json()["links"][0]["id"]
        ids["device"] = head.get("/api/session").get_json()["device"]
        db.session.remove()
        return ids

    def _drawn(self, club: Club) -> dict[str, str]:
        """A plan by chance, and three drills more that one might be drawn of."""
        fresh = [club.add_drill(slug=f"fresh-{n}")[0] for n in range(6)]
        today = now().astimezone().date()
        wanted = {"id": str(uuid.uuid4()), "drills": fresh[3:], "first": today.isoformat(),
                  "every": 7, "days": 8}  # fmt: skip
        one, _ = draw(club.id, club.fencer, wanted, club.coach, today)
        return {"draw": one.id, "drill_a": fresh[0], "drill_b": fresh[1], "drill_c": fresh[2]}

    def _gone(self) -> dict[str, str]:
        """Things of one's own club that were there once."""
        club, head = self.club, self.club.browser
        gone = {"fencer": club.add_fencer("Gone")}
        token = create_link(club.id, gone["fencer"], club.coach).token
        gone["link"] = head.get(f"/api/fencers/{gone['fencer']}/links").get_json()["links"][0]["id"]
        gone["token"] = token
        head.send("DELETE", f"/api/fencers/{gone['fencer']}")
        phone = club.phone()
        head.push(phone.open("2026-03-16"), phone.cue())
        gone["lesson"] = phone.lesson or ""
        head.send("DELETE", f"/api/lessons/{gone['lesson']}")
        gone["booking"] = booked(club, "2026-12-02", club.coach)
        head.send("DELETE", f"/api/bookings/{gone['booking']}")
        code = accounts.invite(club.id, club.coach, "observer")
        gone |= {"code": code.id, "letters": code.code}
        head.send("DELETE", f"/api/invitations/{code.id}")
        gone["device"] = self.device_of("head")
        head.send("DELETE", f"/api/devices/{gone['device']}")
        return gone

    def _left(self) -> Browser:
        self.coaches["left"] = self.club.add_coach("A left", "head")
        browser = self.club.sign_in("A left")
        path = f"/api/coaches/{self.coaches['left']}"
        self.club.browser.send("PATCH", path, {"active": False})
        return browser

    def _signed_out(self) -> Browser:
        browser = self.club.sign_in("Ansgar of Halle Nord Fencing Circle")
        device = browser.get("/api/session").get_json()["device"]
        self.club.browser.send("DELETE", f"/api/devices/{device}")
        return browser

    def secrets(self) -> set[str]:
        """What of the other club may be told to nobody here."""
        return {*WORDS, *(v for k, v in self.foreign.items() if k not in ("day", "letters"))}

    def foreign_rows(self) -> dict[str, list[str]]:
        """Every row of the other club."""
        db.session.remove()
        found = {}
        with db.engine.connect() as connection:
            for table in db.metadata.sorted_tables:
                if table.name == "club":
                    rows = connection.execute(table.select().where(table.c.id == self.other.id))
                elif "club_id" in table.c:
                    rows = connection.execute(
                        table.select().where(table.c.club_id == self.other.id)
                    )
                else:
                    continue
                found[table.name] = sorted(repr(tuple(row)) for row in rows)
        return found


__all__ = ["IN", "PASSPHRASE", "ROLES", "WORDS", "World"]
