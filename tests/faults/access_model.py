"""Sign-in, codes and devices against a model that says who may be in at each moment.

`python -m tests.faults.access_model [--steps 10000] [--database URL]` walks so many random steps.

Browsers sign in and out, steal each other's cookies, show and use codes, change passphrases; heads
change roles, let coaches go, sign devices out; time passes. After each step every browser asks who
it is, and which devices there are.
"""

from __future__ import annotations

import argparse
import inspect
import itertools
import logging
import tempfile
from collections import Counter
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, ClassVar

from freezegun import freeze_time
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from cueladder.app import create_app
from cueladder.limits import limiter
from cueladder.store.access.clubs import add_coach, club_named
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.store.club import HEADER, PASSPHRASE

CHEAP = {"ARGON2": (1, 8, 1)}
START = datetime(2026, 11, 25, 12, tzinfo=UTC)
LASTS, RENEW_AFTER = timedelta(days=60), timedelta(days=1)
PAIR, INVITED, RESET = timedelta(minutes=5), timedelta(hours=48), timedelta(hours=1)
BROWSERS, NEW = 5, "passphrase number {}"
ROLES = ("head", "coach", "observer")
# long times are rare, or nobody would be in most of the time
PASSES = (
    *[timedelta(seconds=10)] * 4,
    *[timedelta(minutes=6)] * 4,
    *[timedelta(minutes=61)] * 3,
    *[timedelta(hours=49)] * 2,
    timedelta(days=30),
    timedelta(days=61),
)

browsers = st.integers(0, BROWSERS - 1)
some = st.integers(0, 10**6)
rightly = st.sampled_from((True, True, True, False))


@dataclass(eq=False)
class Coach:
    """Someone who may sign in."""

    club: int
    id: str
    name: str
    role: str
    passphrase: str = PASSPHRASE
    active: bool = True


@dataclass(eq=False)
class Device:
    """A sign-in: whoever holds its token is in until it ends."""

    coach: Coach
    id: str
    token: str
    expires: datetime


@dataclass(eq=False)
class Code:
    """A code that opens something once; ``coach`` is whose door, ``maker`` whose right."""

    letters: str
    id: str
    expires: datetime
    coach: Coach | None = None
    maker: Coach | None = None
    role: str = ""


@dataclass
class Model:
    """Who may be in.

    Attributes:
        held: for each browser the token in its cookie, good or not.
    """

    coaches: list[Coach] = field(default_factory=list)
    devices: list[Device] = field(default_factory=list)
    pairings: list[Code] = field(default_factory=list)
    invitations: list[Code] = field(default_factory=list)
    resets: list[Code] = field(default_factory=list)
    held: dict[int, str] = field(default_factory=dict)

    def device(self, browser: int, now: datetime) -> Device | None:
        """The sign-in whose token a browser holds."""
        token = self.held.get(browser)
        return next((d for d in self.devices if d.token == token and d.expires > now), None)

    def who(self, browser: int, now: datetime) -> Device | None:
        """The same, where its coach is still with the club; being used, it lasts on."""
        device = self.device(browser, now)
        if device is None or not device.coach.active:
            return None
        if device.expires - now <= LASTS - RENEW_AFTER:
            device.expires = now + LASTS
        return device

    def end(self, device: Device) -> None:
        """A device is signed out, and what was shown on it opens nothing."""
        self.devices.remove(device)
        self.forget_pairings(device.coach)

    def forget_pairings(self, coach: Coach) -> None:
        self.pairings = [code for code in self.pairings if code.coach is not coach]

    def sign_out(self, coach: Coach, keep: Device | None = None) -> None:
        """Every sign-in of a coach but one ends, and every code for a way in."""
        self.devices = [d for d in self.devices if d.coach is not coach or d is keep]
        self.forget_pairings(coach)
        self.resets = [code for code in self.resets if code.coach is not coach]

    def admit(self, browser: int, coach: Coach, token: str, device: str, now: datetime) -> None:
        """A coach comes in by a browser; the token it held before ends, whoever's it was."""
        before = self.device(browser, now)
        if before is not None and before.coach is coach:
            assert device == before.id, "the same browser of the same coach is another device"
            before.token, before.expires = token, now + LASTS
        else:
            if before is not None:
                self.end(before)
            assert device not in {d.id for d in self.devices}
            self.devices.append(Device(coach, device, token, now + LASTS))
        self.held[browser] = token

    def heads(self, club: int) -> list[Coach]:
        """Who leads a club."""
        return [c for c in self.coaches if c.club == club and c.role == "head" and c.active]

    def good(self, code: Code, now: datetime) -> bool:
        """Whether a head's code still opens its door."""
        maker = code.maker
        return code.expires > now and maker is not None and maker in self.heads(maker.club)


class Access(RuleBasedStateMachine):
    """The server beside the model. ``app`` and ``clock`` are set by whoever runs it."""

    app: Any = None
    clock: Any = None
    steps = 0
    came: ClassVar[Counter[str]] = Counter()  # what came of what was done

    @initialize()
    def begin(self) -> None:
        self.clock.move_to(START)
        self.names = (NEW.format(k) for k in itertools.count())
        self.model = Model()
        with self.app.app_context():
            with db.engine.begin() as connection:
                for table in reversed(db.metadata.sorted_tables):
                    connection.execute(table.delete())
            for club, roles in (("Halle Nord", ("head", "head", "coach", "observer")),
                                ("Salle Birkenhain", ("head", "coach"))):  # fmt: skip
                where = club_named(club).id
                for k, role in enumerate(roles):
                    name = f"{club} {k}"
                    made = add_coach(where, name, PASSPHRASE, role)
                    self.model.coaches.append(Coach(where, made.id, name, role))
            db.session.remove()
        for browser, coach in enumerate(self.model.coaches[:BROWSERS]):
            self.sign_in(browser, self.model.coaches.index(coach), True)

    def now(self) -> datetime:
        return datetime.now(UTC)

    def ask(self, browser: int, method: str, path: str, body: Any = None) -> Any:
        """One request with the cookie the browser holds."""
        token = self.model.held.get(browser)
        cookie = {"Cookie": f"cue_ladder={token}"} if token else {}
        kwargs = {} if body is None else {"json": body}
        with self.app.app_context():
            client = self.app.test_client(use_cookies=False)
            answer = client.open(path, method=method, headers=HEADER | cookie, **kwargs)
        step = inspect.currentframe().f_back.f_code.co_name  # type: ignore[union-attr]
        self.came[f"{step} {'taken' if answer.status_code < 300 else 'refused'}"] += 1
        return answer

    def let_in(self, browser: int, answer: Any, coach: Coach) -> None:
        """What follows from an answer that let a coach in."""
        assert answer.status_code == 200, answer.get_data(as_text=True)
        told = answer.get_json()
        assert told["coach"]["id"] == coach.id
        token = answer.headers["Set-Cookie"].split("cue_ladder=")[1].split(";")[0]
        self.model.admit(browser, coach, token, told["device"], self.now())

    def refused(self, answer: Any, *codes: int) -> None:
        assert answer.status_code in codes, (answer.status_code, answer.get_data(as_text=True))
        assert "Set-Cookie" not in answer.headers or "cue_ladder=;" in answer.headers["Set-Cookie"]

    def acting(self, browser: int, head: bool = False) -> Coach | None:
        """Who acts by a browser, if that is allowed."""
        device = self.model.who(browser, self.now())
        if device is None or (head and device.coach.role != "head"):
            return None
        return device.coach

    @rule(by=browsers, who=some, right=rightly)
    def sign_in(self, by: int, who: int, right: bool) -> None:
        coach = self.model.coaches[who % len(self.model.coaches)]
        body = {"name": coach.name, "passphrase": coach.passphrase if right else "not this one"}
        answer = self.ask(by, "POST", "/api/session", body)
        if right and coach.active:
            self.let_in(by, answer, coach)
        else:
            self.refused(answer, 401)

    @rule(by=browsers, who=some)
    def sign_in_with_an_older_passphrase(self, by: int, who: int) -> None:
        coach = self.model.coaches[who % len(self.model.coaches)]
        answer = self.ask(by, "POST", "/api/session",
                          {"name": coach.name, "passphrase": PASSPHRASE})  # fmt: skip
        if coach.active and coach.passphrase == PASSPHRASE:
            self.let_in(by, answer, coach)
        else:
            self.refused(answer, 401)

    @rule(by=browsers)
    def sign_out(self, by: int) -> None:
        device = self.model.device(by, self.now())
        assert self.ask(by, "DELETE", "/api/session").status_code == 204
        if device is not None:
            self.model.end(device)
        self.model.held.pop(by, None)

    @rule(thief=browsers, of=browsers)
    def steal_a_cookie(self, thief: int, of: int) -> None:
        if of in self.model.held:
            self.model.held[thief] = self.model.held[of]

    @rule(by=browsers)
    def show_a_pairing_code(self, by: int) -> None:
        coach = self.acting(by)
        answer = self.ask(by, "POST", "/api/pairings")
        if coach is None:
            return self.refused(answer, 401)
        self.model.forget_pairings(coach)
        letters = answer.get_json()["code"]
        self.model.pairings.append(Code(letters, "", self.now() + PAIR, coach))

    @precondition(lambda self: self.model.pairings)
    @rule(by=browsers, which=some)
    def pair(self, by: int, which: int) -> None:
        code = self.model.pairings[which % len(self.model.pairings)]
        assert code.coach is not None
        answer = self.ask(by, "POST", "/api/session/pair", {"code": code.letters})
        if code.expires > self.now() and code.coach.active:
            self.model.pairings.remove(code)
            self.let_in(by, answer, code.coach)
            again = self.ask(by, "POST", "/api/session/pair", {"code": code.letters})
            self.refused(again, 401)
        else:
            self.refused(answer, 401)

    @rule(by=browsers, right=rightly)
    def change_the_passphrase(self, by: int, right: bool) -> None:
        coach, device = self.acting(by), self.model.device(by, self.now())
        new = next(self.names)
        old = coach.passphrase if coach and right else "not this one"
        body = {"old": old, "passphrase": new}
        answer = self.ask(by, "PUT", "/api/session/passphrase", body)
        if coach is None:
            return self.refused(answer, 401)
        if not right:
            return self.refused(answer, 422)
        assert answer.status_code == 204
        coach.passphrase = new
        self.model.sign_out(coach, keep=device)

    @rule(by=browsers, role=st.sampled_from(ROLES))
    def invite(self, by: int, role: str) -> None:
        coach, known = self.acting(by, head=True), self.model.who(by, self.now())
        answer = self.ask(by, "POST", "/api/invitations", {"role": role})
        if coach is None:
            return self.refused(answer, 403 if known else 401)
        told = answer.get_json()
        code = Code(told["code"], told["id"], self.now() + INVITED, None, coach, role)
        self.model.invitations.append(code)

    @precondition(lambda self: self.model.invitations)
    @rule(by=browsers, which=some)
    def join(self, by: int, which: int) -> None:
        code = self.model.invitations[which % len(self.model.invitations)]
        name = f"Guest {len(self.model.coaches)}"
        body = {"code": code.letters, "name": name, "passphrase": PASSPHRASE}
        answer = self.ask(by, "POST", "/api/session/join", body)
        if not self.model.good(code, self.now()):
            return self.refused(answer, 401)
        assert code.maker is not None
        self.model.invitations.remove(code)
        coach = Coach(code.maker.club, answer.get_json()["coach"]["id"], name, code.role)
        self.model.coaches.append(coach)
        self.let_in(by, answer, coach)

    @precondition(lambda self: self.model.invitations)
    @rule(by=browsers, which=some)
    def withdraw_an_invitation(self, by: int, which: int) -> None:
        code = self.model.invitations[which % len(self.model.invitations)]
        if not self.model.good(code, self.now()):
            return
        assert code.maker is not None
        coach, known = self.acting(by, head=True), self.model.who(by, self.now())
        answer = self.ask(by, "DELETE", f"/api/invitations/{code.id}")
        if coach is None:
            self.refused(answer, 403 if known else 401)
        elif coach.club != code.maker.club:
            self.refused(answer, 404)
        else:
            assert answer.status_code == 204
            self.model.invitations.remove(code)

    @rule(by=browsers, who=some)
    def make_a_reset_code(self, by: int, who: int) -> None:
        target = self.model.coaches[who % len(self.model.coaches)]
        coach, known = self.acting(by, head=True), self.model.who(by, self.now())
        answer = self.ask(by, "POST", f"/api/coaches/{target.id}/reset")
        if coach is None:
            self.refused(answer, 403 if known else 401)
        elif coach.club != target.club:
            self.refused(answer, 404)
        elif not target.active:
            self.refused(answer, 422)
        else:
            self.model.resets = [code for code in self.model.resets if code.coach is not target]
            letters = answer.get_json()["code"]
            self.model.resets.append(Code(letters, "", self.now() + RESET, target, coach))

    @precondition(lambda self: self.model.resets)
    @rule(by=browsers, which=some)
    def reset(self, by: int, which: int) -> None:
        code = self.model.resets[which % len(self.model.resets)]
        assert code.coach is not None
        new = next(self.names)
        body = {"code": code.letters, "passphrase": new}
        answer = self.ask(by, "POST", "/api/session/reset", body)
        if not self.model.good(code, self.now()):
            return self.refused(answer, 401)
        code.coach.passphrase = new
        self.model.sign_out(code.coach)
        self.let_in(by, answer, code.coach)

    @rule(by=browsers, who=some, role=st.sampled_from(ROLES))
    def give_another_role(self, by: int, who: int, role: str) -> None:
        self._change(by, who, {"role": role})

    @rule(by=browsers, who=some, active=rightly)
    def let_go_or_take_back(self, by: int, who: int, active: bool) -> None:
        self._change(by, who, {"active": active})

    def _change(self, by: int, who: int, change: dict[str, Any]) -> None:
        target = self.model.coaches[who % len(self.model.coaches)]
        coach, known = self.acting(by, head=True), self.model.who(by, self.now())
        answer = self.ask(by, "PATCH", f"/api/coaches/{target.id}", change)
        if coach is None:
            return self.refused(answer, 403 if known else 401)
        if coach.club != target.club:
            return self.refused(answer, 404)
        leads = change.get("role", target.role) == "head" and change.get("active", target.active)
        if not leads and self.model.heads(target.club) == [target]:
            return self.refused(answer, 409)
        assert answer.status_code == 200
        target.role = change.get("role", target.role)
        target.active = change.get("active", target.active)
        if not target.active:
            self.model.sign_out(target)
        if not leads:
            for codes in (self.model.invitations, self.model.resets):
                codes[:] = [code for code in codes if code.maker is not target]

    @precondition(lambda self: self.model.devices)
    @rule(by=browsers, which=some)
    def sign_a_device_out(self, by: int, which: int) -> None:
        device = self.model.devices[which % len(self.model.devices)]
        if device.expires <= self.now():
            return
        coach = self.acting(by)
        answer = self.ask(by, "DELETE", f"/api/devices/{device.id}")
        if coach is None:
            self.refused(answer, 401)
        elif coach is device.coach or (coach.role == "head" and coach.club == device.coach.club):
            assert answer.status_code == 204
            self.model.end(device)
        else:
            self.refused(answer, 404)

    @rule(by=st.sampled_from(PASSES))
    def time_passes(self, by: timedelta) -> None:
        self.clock.tick(by)

    @invariant()
    def everyone_is_in_who_may_be_and_nobody_else(self) -> None:
        type(self).steps += 1
        for browser in range(BROWSERS):
            device = self.model.who(browser, self.now())
            answer = self.ask(browser, "GET", "/api/session")
            if device is None:
                assert answer.status_code == 401
                continue
            told = answer.get_json()
            coach = device.coach
            assert (told["coach"]["id"], told["coach"]["role"]) == (coach.id, coach.role)
            assert (told["device"], told["club"]["id"]) == (device.id, str(coach.club))
            listed = self.ask(browser, "GET", "/api/devices").get_json()["devices"]
            seen = {
                d.id
                for d in self.model.devices
                if d.expires > self.now()
                and (d.coach is coach or (coach.role == "head" and d.coach.club == coach.club))
            }
            assert {one["id"] for one in listed} == seen  # fmt: skip


def walk(app: Any, steps: int, each: int = 50, seed_free: bool = False, shrink: bool = True) -> int:
    """Walk at least so many steps, in walks of ``each``; returns how many were walked.

    Args:
        seed_free: walk otherwise each time; else the same walks.
        shrink: of a fault found, look for the shortest walk to it.
    """
    Access.app, Access.steps = app, 0
    Access.came.clear()
    how = settings(
        max_examples=max(1, -(-steps // each)),
        stateful_step_count=each,
        deadline=None,
        database=None,
        derandomize=not seed_free,
        phases=[Phase.generate, Phase.shrink] if shrink else [Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    with freeze_time(START) as Access.clock:
        while Access.steps < steps:
            run_state_machine_as_test(Access, settings=how)
            how = settings(how, derandomize=False)
    return Access.steps


def main() -> None:
    """Walk and say how far."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--steps", type=int, default=10_000)
    parser.add_argument("--database", help="a PostgreSQL database without tables; else SQLite")
    words = parser.parse_args()
    for name in ("cueladder.app", "cueladder.access"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as folder:
        app = create_app({"DATA": Path(folder), "DATABASE_URL": words.database, **CHEAP})
        limiter.enabled = False
        with app.app_context():
            migrate.up()
        walked = walk(app, words.steps, seed_free=True)
        with app.app_context():
            db.session.remove()
            db.engine.dispose()
    for what, count in sorted(Access.came.items()):
        print(f"  {what}: {count}")
    print(f"{walked} steps: at each, everyone was in who may be, and nobody else")


if __name__ == "__main__":
    main()
