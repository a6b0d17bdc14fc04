"""Every route by every role on every kind of thing: who gets in, and what is told of another club.

`python -m tests.faults.matrix [--database URL]` prints the figures.

A route is tried with all that it names being of one's own club; and with each thing it names, one
at a time, being another club's, one that is gone, and none at all. What a try names is noticed as
it is asked for, in the address as in the body.
"""

from __future__ import annotations

import argparse
import logging
import re
import tempfile
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sqlalchemy import Table

from cueladder.app import create_app
from cueladder.limits import limiter
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from tests.faults.matrix_tries import CODE, EVENTS, LINK, TRIES, Named, Route, Try
from tests.faults.world import IN, ROLES, World

KINDS = ("foreign", "deleted", "bad")


def routes(app: Any) -> set[Route]:
    """Every route there is, found in the app itself."""
    return {
        (method, rule.rule)
        for rule in app.url_map.iter_rules()
        for method in rule.methods - {"HEAD", "OPTIONS"}
    }


@dataclass
class Matrix:
    """Tries everything and counts.

    Attributes:
        statuses: (kind of thing, status) → how often.
        wrong: what came out otherwise than it must.
        untried: routes without a try, and tries without a route.
    """

    app: Any
    statuses: Counter[tuple[str, int]] = field(default_factory=Counter)
    pairs: set[tuple[Route, str]] = field(default_factory=set)
    wrong: list[str] = field(default_factory=list)
    untried: set[Route] = field(default_factory=set)

    def run(
        self, some: Callable[[Route], bool] = lambda _: True, roles: tuple[str, ...] = ROLES
    ) -> Matrix:
        """Try every route, or some, by every role, or some."""
        self.untried = routes(self.app) ^ TRIES.keys()
        with self.app.app_context():
            self._begin()
            for route, how in TRIES.items():
                for role in roles if some(route) else ():
                    self._try(route, how, role)
            db.session.remove()
        return self

    def _begin(self) -> None:
        """Make the world, and keep every row and cookie of it: to make it takes seconds."""
        self.rows: list[tuple[Table, list[dict[str, Any]]]] = []
        self.jars: list[tuple[Any, dict[Any, Any]]] = []
        self._anew()
        self.world = World(self.app)
        with db.engine.begin() as connection:
            for table in db.metadata.sorted_tables:
                found = connection.execute(table.select()).mappings()
                self.rows.append((table, [dict(row) for row in found]))
        clients = [browser.client for browser in self.world.browsers.values()]
        self.jars = [(client, dict(client._cookies)) for client in clients]

    def _anew(self) -> None:
        """Everything as it was in the beginning."""
        limiter.reset()
        db.session.remove()
        with db.engine.begin() as connection:
            for table in reversed(db.metadata.sorted_tables):
                connection.execute(table.delete())
            for table, rows in self.rows:
                if rows:
                    connection.execute(table.insert(), rows)
        for client, jar in self.jars:
            client._cookies = dict(jar)

    def _try(self, route: Route, how: Try, role: str) -> None:
        self.pairs.add((route, role))
        lets_in = how.roles is None or role in how.roles
        named = Named(self.world, role)
        expected = how.well if lets_in else (403,) if role in IN else (401,)
        # other things first: one's own may change what there is
        if lets_in:
            self._sent(route, how, named, dry=True)
            for name in dict.fromkeys(named.asked):
                for kind in KINDS:
                    if name != "day" and named.has(name, kind):
                        self._swapped(route, how, role, name, kind)
        answer, _ = self._sent(route, how, Named(self.world, role))
        self._note("own" if lets_in else "not let in", route, role, answer, expected)
        if not (route[0] == "GET" or how.keeps) and answer.status_code < 400:
            self._anew()

    def _swapped(self, route: Route, how: Try, role: str, name: str, kind: str) -> None:
        named = Named(self.world, role, name, kind)
        before = self.world.foreign_rows() if kind == "foreign" else None
        answer, sent = self._sent(route, how, named)
        body = answer.get_data(as_text=True)
        what, why = f"{kind} {name}", how.silent.get(name, "")
        expected = () if why else (400, 401, 404, 409, 422)
        self._note(what, route, role, answer, expected or tuple(range(200, 500)))
        if why == EVENTS and "refused" not in body:
            self.wrong.append(f"{route} {role} {what}: taken")
        if kind == "foreign" and why in (LINK, CODE):
            return  # it is the other club that is shown, or joined: by its own link or code
        told = [word for word in self.world.secrets() if word in body and word not in sent]
        if told:
            self.wrong.append(f"{route} {role} {what}: tells {told}")
        if before is not None and self.world.foreign_rows() != before:
            self.wrong.append(f"{route} {role} {what}: changes the other club")

    def _sent(self, route: Route, how: Try, named: Named, dry: bool = False) -> tuple[Any, str]:
        method, rule = route
        path = rule
        for part in re.findall(r"<([^>]+)>", rule):
            name = part.split(":")[-1]
            value = how.args.get(name) or named[name.removesuffix("_id")]
            path = path.replace(f"<{part}>", value)
        body = how.body(named) if how.body else None
        query = how.query(named) if how.query else None
        if dry:
            return None, ""
        browser = self.world.browsers[named.role]
        limiter.reset()
        if how.form:
            answer = browser.open(path, method=method, data=body)
        else:
            answer = browser.send(method, path, body, query_string=query)
        return answer, f"{path} {body} {query}"

    def _note(
        self, what: str, route: Route, role: str, answer: Any, expected: tuple[int, ...]
    ) -> None:
        self.statuses[(what.split()[0] if what != "not let in" else what, answer.status_code)] += 1
        if answer.status_code not in expected:
            said = answer.get_data(as_text=True)[:200]
            self.wrong.append(
                f"{route} {role} {what}: {answer.status_code}, not {expected}: {said}"
            )


def main() -> None:
    """Try everything and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--database", help="a PostgreSQL database without tables; else SQLite")
    words = parser.parse_args()
    logging.getLogger("cueladder.access").setLevel(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as folder:
        static = Path(folder) / "static"
        static.mkdir()
        (static / "index.html").write_text("<!doctype html><title>Cue Ladder</title>")
        app = create_app({"DATA": folder, "DATABASE_URL": words.database, "STATIC": static,
                          "ARGON2": (1, 8, 1)})  # fmt: skip
        with app.app_context():
            migrate.up()
        found = Matrix(app).run()
        with app.app_context():
            db.engine.dispose()
    print(f"{len(TRIES)} routes × {len(ROLES)} roles: {len(found.pairs)} pairs, "
          f"{found.statuses.total()} calls")  # fmt: skip
    for (what, status), count in sorted(found.statuses.items()):
        print(f"  {what:<12} {status}: {count}")
    for wrong in [*found.wrong, *(f"untried: {route}" for route in sorted(found.untried))]:
        print("WRONG", wrong)
    print(f"{len(found.wrong)} wrong, {len(found.untried)} untried")


if __name__ == "__main__":
    main()
