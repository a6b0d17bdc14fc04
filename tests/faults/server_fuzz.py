"""Calls made up from the API's own description, good and bad; none may end in a 5xx.

python -m tests.faults.server_fuzz [--calls 10000] [--database URL]
"""

from __future__ import annotations

import argparse
import logging
import os
import random
import tempfile
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import schemathesis
from hypothesis import HealthCheck, Phase, Verbosity, given, seed, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.store.club import HEADER, Club

CHEAP = {"ARGON2": (1, 8, 1), "SIGN_IN_LIMITS": "100000 per minute", "RATELIMIT_ENABLED": False}
LASTING = 150
MODES = (GenerationMode.POSITIVE, GenerationMode.NEGATIVE)


@dataclass
class Fuzz:
    """Makes calls and counts the answers.

    Attributes:
        statuses: how often each status came.
        failed: (method, path, body, status, answer) of every 5xx, and of errors in another shape.
    """

    app: Any
    seed: int = 1
    statuses: Counter[int] = field(default_factory=Counter)
    failed: list[tuple[Any, ...]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.rng, self.made, self.left, self.rounds = random.Random(self.seed), 0, 0, 0

    def run(self, calls: int, most: int | None = None) -> None:
        """Make so many calls, or a few more, spread over all operations or ``most`` drawn ones."""
        operations = [found.ok() for found in self._schema().get_all_operations()]
        if most is not None:
            self.rng.shuffle(operations)
            operations.sort(key=lambda op: op.path != "/api/events")
            del operations[most:]
        # the push takes the most, and is asked the most
        operations += [op for op in operations if op.path == "/api/events"] * 4
        each = max(1, min(50, calls // (len(operations) * len(MODES))))
        while self.statuses.total() < calls:
            self.rounds += 1
            for operation in operations:
                for mode in MODES:
                    self._try(operation, mode, each)

    def _schema(self) -> Any:
        return schemathesis.openapi.from_wsgi("/api/openapi.json", self.app)

    def _try(self, operation: Any, mode: GenerationMode, times: int) -> None:
        @seed(self.seed * 1000 + self.rounds)
        @settings(
            max_examples=times,
            phases=[Phase.generate],
            deadline=None,
            database=None,
            verbosity=Verbosity.quiet,
            suppress_health_check=list(HealthCheck),
        )
        @given(case=operation.as_strategy(generation_mode=mode))
        def call(case: Any) -> None:
            self._call(case)

        # an operation without parameters has no bad call
        with suppress(Unsatisfiable):
            call()

    def _call(self, case: Any) -> None:
        if self.left <= 0:
            self._new_club()
        self.left -= 1
        if self.rng.random() < 0.7:
            case.path_parameters = self._nearer(case.path_parameters or {})
            if isinstance(case.body, dict):
                case.body = self._nearer(case.body)
        answer = case.call(headers=HEADER, cookies={"cue_ladder": self.cookie})
        self.statuses[answer.status_code] += 1
        kind = answer.headers.get("content-type", [""])[0]
        wrong_shape = answer.status_code >= 400 and not kind.startswith("application/problem+json")
        if answer.status_code >= 500 or wrong_shape:
            said = (case.method, case.formatted_path, repr(case.body)[:500])
            self.failed.append((*said, answer.status_code, answer.content[:300]))
        if answer.status_code == 401:
            self.left = 0  # signed itself out, or took itself out of the club

    def _new_club(self) -> None:
        """A club with something in it, so that calls get further than "no such thing"."""
        self.made += 1
        with self.app.app_context():
            club = Club(self.app, f"Club {self.made}")
            phone = club.phone()
            club.browser.push(phone.open(), *phone.cues(12))
            self.cookie = club.browser.client.get_cookie("cue_ladder").value
            self.known = {
                "fencer": club.fencer,
                "drill": club.drill,
                "chart": club.chart,
                "coach": club.coach,
                "lesson": phone.lesson,
                "device": phone.device,
                "day": "2026-03-02",
                "slug": f"slug-{self.made}-{self.left}",
            }
            db.session.remove()
        self.left = LASTING

    def _nearer(self, thing: Any, name: str = "") -> Any:
        """The same with some names of things that exist."""
        if isinstance(thing, dict):
            return {key: self._nearer(value, key) for key, value in thing.items()}
        if isinstance(thing, list):
            return [self._nearer(value, name) for value in thing]
        known = self.known.get(name.removesuffix("_id"))
        return known if known is not None and self.rng.random() < 0.8 else thing


def main() -> None:
    """Call, count and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--calls", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--database", help="a PostgreSQL database without tables; else SQLite")
    given_words = parser.parse_args()
    for name in ("cueladder.app", "cueladder.access"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as folder:
        app = create_app({"DATA": Path(folder), "DATABASE_URL": given_words.database, **CHEAP})
        with app.app_context():
            migrate.up()
        fuzz = Fuzz(app, given_words.seed)
        fuzz.run(given_words.calls)
        with app.app_context():
            db.engine.dispose()
    print(f"{fuzz.statuses.total()} calls: {dict(sorted(fuzz.statuses.items()))}")
    for failure in fuzz.failed[:20]:
        print("FAILED", *failure)
    print(f"{len(fuzz.failed)} 5xx or errors of another shape, load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
