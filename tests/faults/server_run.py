"""A server in its own process, a club in its database, and a phone that sends till it is answered.

Not a test module.
"""

from __future__ import annotations

import http.client
import json
import logging
import multiprocessing
import random
import resource
import signal
import socket
import time
from pathlib import Path
from typing import Any

import waitress

from cueladder.app import create_app
from cueladder.commands.serving import limits
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.patience import SECONDS, until
from tests.ports import free_port
from tests.store.club import CHEAP, HEADER, Club, Phone

COOKIE = "cue_ladder"


class House:
    """A club on a database of its own; events and sign-ins are made here, the server is apart."""

    def __init__(self, folder: Path, url: str | None = None, fencers: int = 3) -> None:
        self.folder, self.url = folder, url
        self.app = create_app({"DATA": folder, "DATABASE_URL": url, **CHEAP})
        with self.app.app_context():
            migrate.up()
            self.club = Club(self.app)
            self.fencers = [self.club.add_fencer(f"Fencer {i}") for i in range(fencers)]
            self.cookie = self.club.browser.client.get_cookie(COOKIE).value
            self.let_go()

    def let_go(self) -> None:
        """Leave no connection of this process open."""
        db.session.remove()
        db.engine.dispose()

    def phone(self) -> Phone:
        return self.club.phone()

    def stored(self) -> list[dict[str, Any]]:
        """Every event of the club, by pulling."""
        found, after, more = [], 0, True
        with self.app.app_context():
            while more:
                page = self.club.browser.get(f"/api/events?after={after}").get_json()
                found += page["events"]
                after, more = page["next"], page["more"]
            self.let_go()
        return found

    def standings(self) -> dict[tuple[str, str], Any]:
        """Where every fencer stands on every drill."""
        with self.app.app_context():
            rows = self.club.browser.get("/api/standings?limit=2000").get_json()["standings"]
            self.let_go()
        return {(row["fencer"], row["drill"]): row["walk"] for row in rows}


def _serve(folder: str, url: str | None, port: int, largest_file: int | None) -> None:
    """What a server's process does: `cueladder serve`, without the banner."""
    if largest_file:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (largest_file, largest_file))
    logging.disable()
    app = create_app({"DATA": folder, "DATABASE_URL": url})
    waitress.serve(app, host="127.0.0.1", port=port, threads=4, _quiet=True, **limits(app))


# processes are forked from one that has everything imported, or each start would take seconds
_processes = multiprocessing.get_context("forkserver")
_processes.set_forkserver_preload(["cueladder.cli", "waitress", "tests.faults.server_run"])


class Served:
    """The server over a house's database on a free port, in a process of its own."""

    def __init__(self, house: House, largest_file: int | None = None) -> None:
        self.house, self.largest_file = house, largest_file
        self.port = free_port()
        self._process: Any = None

    def __enter__(self) -> Served:
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def start(self) -> None:
        """Start and wait until it listens."""
        words = (str(self.house.folder), self.house.url, self.port, self.largest_file)
        self._process = _processes.Process(target=_serve, args=words, daemon=True)
        self._process.start()
        until(lambda: self._listens() or not self.runs(), "the server")
        if not self.runs():
            raise RuntimeError("the server did not start")

    def stop(self) -> None:
        """Stop it as a power cut does (SIGKILL)."""
        self._process.kill()
        self._process.join(SECONDS)

    def runs(self) -> bool:
        """Whether the process is there."""
        return bool(self._process.is_alive())

    def _listens(self) -> bool:
        with socket.socket() as probe:
            return probe.connect_ex(("127.0.0.1", self.port)) == 0


def call(
    port: int, cookie: str, method: str, path: str, body: Any = None, timeout: float = 10
) -> tuple[int, Any, str]:
    """One request on a connection of its own: (status, body as JSON, content type).

    Raises:
        OSError, http.client.HTTPException, ValueError: no answer, or a broken one.
    """
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=timeout)
    try:
        headers = {**HEADER, "Cookie": f"{COOKIE}={cookie}", "Content-Type": "application/json"}
        connection.request(method, path, None if body is None else json.dumps(body), headers)
        answer = connection.getresponse()
        return answer.status, json.loads(answer.read()), answer.headers["Content-Type"]
    finally:
        connection.close()


class Queue:
    """A phone's unsent events: an event leaves it only when the server's reply names its id.

    Attributes:
        unsent: what is not acknowledged yet, oldest first.
        tries, unanswered: requests made, and those without a whole answer.
        problems: (status, problem) of every answer that was no 200.
        words: what replies said became of events.
    """

    def __init__(self, port: int, cookie: str, rng: random.Random, timeout: float = 10) -> None:
        self.port, self.cookie, self.rng, self.timeout = port, cookie, rng, timeout
        self.unsent: list[dict[str, Any]] = []
        self.tries = self.unanswered = 0
        self.problems: list[tuple[int, Any]] = []
        self.words: dict[str, int] = {}

    def send_once(self, most: int = 25) -> bool:
        """Send some of the oldest; whether an answer came."""
        batch = self.unsent[: self.rng.randint(1, most)]
        self.tries += 1
        try:
            status, said, kind = call(
                self.port, self.cookie, "POST", "/api/events", {"events": batch}, self.timeout
            )
        except (OSError, http.client.HTTPException, ValueError):
            self.unanswered += 1
            return False
        if status != 200:
            assert kind == "application/problem+json", (status, kind, said)
            self.problems.append((status, said))
            return False
        acknowledged = set()
        for result in said["results"]:
            self.words[result["status"]] = self.words.get(result["status"], 0) + 1
            assert result["status"] != "refused", result
            acknowledged.add(result["id"])
        self.unsent = [event for event in self.unsent if event["id"] not in acknowledged]
        return True

    def send_all(self, seconds: float = 600) -> None:
        """Send until nothing is left."""
        end = time.monotonic() + seconds
        while self.unsent:
            if not self.send_once():
                time.sleep(0.02)
            if time.monotonic() > end:
                raise TimeoutError(f"{len(self.unsent)} events were not taken")


def lesson(phone: Phone, fencer: str, rng: random.Random, cues: int) -> list[dict[str, Any]]:
    """A lesson with slips, as the phone wrote it."""
    phone.club.fencer = fencer
    events = [phone.open(day=f"2026-03-{rng.randint(1, 28):02d}")]
    for _ in range(cues):
        events.append(phone.cue(rng.choices(["correct", "late", "early"], [8, 1, 1])[0]))
        if rng.random() < 0.1:
            events.append(phone.void(rng.choice([e for e in events if e["type"] == "cue_marked"])))
    return [*events, phone.event("lesson_closed")]


def check(house: House, made: list[dict[str, Any]]) -> tuple[int, int]:
    """(lost, doubled) of the events made; also compares the standings with a clean house's."""
    stored = house.stored()
    ids = [event["id"] for event in stored]
    lost = {event["id"] for event in made} - set(ids)
    sent = {event["id"]: event for event in made}
    for event in stored:
        seq = event.pop("seq")
        assert event == sent[event["id"]], f"number {seq} is not what was sent"
    return len(lost), len(ids) - len(set(ids))
