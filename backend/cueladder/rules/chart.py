"""Charts: everything a phone needs to walk a drill, as data."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from .drill import Drill
from .errors import RuleError
from .find import Find, compile_find
from .find_table import FindState
from .ladder import Ladder
from .mark import OUTCOMES, Given, Kind, Mark, Meaning, Move, counters, meanings
from .order import order_json, waits_json
from .place import Place, lay_out
from .said import say
from .settings import AFTER_BACK, CHECK_CUES, CLOSING_CUES, INTERVALS, MILDER
from .table import Table, compile_check, compile_count, state_of
from .words import MOVES, WHY

VERSION = 2


@dataclass(frozen=True)
class Chart:
    """A compiled drill.

    Attributes:
        id: ``c<version>.<16 hex digits of the content>``; words do not count.
        version: the form of the chart, and with it how it is walked.
        kind: the drill's kind.
        rule: the rule as data.
        cap: cues at one place without a decision before the move is rest.
        usual: cues a lesson usually gives the drill.
        table: the rule's table; every counter walks it.
        back: state in which the counters begin after a step back.
        counters: their names.
        meaning: what each mark means for each cue given; an absent mark cannot be given.
        check: the re-check's table (climb: held, back: failed).
        closing: cues that end a drill left for the day.
        order: the table by which the phone proposes attack or decoy and soft or loud, where the
            drill gives either; else None.
        waits: equally likely waits before a cue, in seconds.
        reentry: rows (days up to, or None for any; rungs lower, or "half").
        milder: a rung that has held so often starts as after the next shorter break.
        intervals: days after which a rung is re-checked, by how often it has held.
        find: the search for the start, or None where there is none.
        places: one rung on each ladder, and the ways between them.
        ladders: the ladders in words.
        words: reasons and moves in words.
    """

    id: str
    version: int
    kind: Kind
    rule: Mapping[str, Any]
    cap: int
    usual: int
    table: Table
    back: int
    counters: tuple[str, ...]
    meaning: Mapping[Given, Mapping[Mark, Meaning]]
    check: Table
    closing: int
    order: Mapping[str, Any] | None
    waits: tuple[float, ...]
    reentry: tuple[tuple[int | None, int | str], ...]
    milder: int
    intervals: tuple[int, ...]
    find: Find | None
    places: tuple[Place, ...]
    ladders: Mapping[str, Mapping[str, Any] | None]
    words: Mapping[str, Mapping[str, str]]

    def to_json(self) -> dict[str, Any]:
        """The chart as the phone gets it."""
        return {"id": self.id, "words": self.words, **_content(self)}

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Chart:
        """Read a chart back; one of version 1 lacks what it did not know.

        Raises:
            RuleError: the chart is of a version this program does not know.
        """
        check_version(doc["id"])
        return cls(
            id=doc["id"],
            version=doc["version"],
            kind=Kind(doc["kind"]),
            rule=doc["rule"],
            cap=doc["cap"],
            usual=doc.get("usual", doc["cap"]),
            table=_table(doc["states"], doc.get("keep", ())),
            back=doc.get("back", 0),
            counters=tuple(doc["counters"]),
            meaning={
                Given(given): {
                    Mark(mark): Meaning(**{**c, "outcome": OUTCOMES[c["outcome"]]})
                    for mark, c in cells.items()
                }
                for given, cells in doc["meaning"].items()
            },
            check=_table(doc["check"]),
            closing=doc["closing"],
            order=doc["order"],
            waits=tuple(doc["waits"]),
            reentry=tuple((row["days"], row["back"]) for row in doc["reentry"]),
            milder=doc.get("milder", 0),
            intervals=tuple(doc.get("intervals", ())),
            find=_find(doc.get("find")),
            places=tuple(
                Place(**{**p, "descent": tuple(p["descent"]), "entry": tuple(p["entry"])})
                for p in doc["places"]
            ),
            ladders=doc["ladders"],
            words=doc["words"],
        )


def compile_chart(
    drill: Drill,
    *,
    check_cues: int = CHECK_CUES,
    intervals: Mapping[str, tuple[int, ...]] = INTERVALS,
    after_back: float = AFTER_BACK,
) -> Chart:
    """Compile a drill to its chart.

    Args:
        drill: a checked drill.
        check_cues: clean cues of a re-check.
        intervals: days after which a rung is re-checked, by how often it has held; for drills
            with a heat ladder, and for the others.
        after_back: share of a finished count that a step back leaves on the rung it leads to.

    In discrimination the cap counts both kinds of cue, so it is twice the drill's.
    """
    names = counters(drill.kind)
    table = compile_count(drill.rule, drill.startles, tuple(share for *_, share in drill.breaks))
    chart = Chart(
        id="",
        version=VERSION,
        kind=drill.kind,
        rule=drill.rule.to_json(),
        cap=drill.cap * len(names),
        usual=drill.usual,
        table=table,
        back=state_of(drill.rule, table, after_back),
        counters=names,
        meaning=meanings(drill.kind, drill.gives),
        check=compile_check(check_cues),
        closing=CLOSING_CUES,
        order=order_json() if drill.gives == "either" else None,
        waits=tuple(waits_json()),
        reentry=tuple((days, back) for days, back, _ in drill.breaks),
        milder=MILDER,
        intervals=tuple(intervals["heat" if drill.heat else "read"]),
        find=_search(drill),
        places=lay_out(drill.read, drill.heat, drill.breaks),
        ladders={"read": _ladder(drill.read), "heat": _ladder(drill.heat)},
        words={"why": WHY, "move": MOVES},
    )
    text = json.dumps(_content(chart), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    digest = hashlib.sha256(text.encode()).hexdigest()[:16]
    return Chart(**{**chart.__dict__, "id": f"c{VERSION}.{digest}"})


def _search(drill: Drill) -> Find | None:
    """A mixed drill has no search: its places are not in one line."""
    if drill.read and drill.heat:
        return None
    if drill.read:
        return compile_find(len(drill.read), "read")
    return compile_find(len(drill.heat), "heat") if drill.heat else None


def check_version(chart_id: str) -> None:
    """Raise a RuleError on ``chart`` if the id is of a later version, or no chart id at all."""
    head, _, digest = chart_id.partition(".")
    if not (head.startswith("c") and head[1:].isdigit() and digest):
        raise RuleError("chart", say("is no chart id: open the drill again to get its chart"))
    if int(head[1:]) > VERSION:
        raise RuleError(
            "chart",
            say(
                "is of version %(theirs)s, newer than %(ours)s: update this side",
                theirs=head[1:],
                ours=VERSION,
            ),
        )


def _content(chart: Chart) -> dict[str, Any]:
    return {
        "version": chart.version,
        "kind": chart.kind.value,
        "rule": dict(chart.rule),
        "cap": chart.cap,
        "ready": chart.table.ready,
        "outcomes": [o.value for o in OUTCOMES],
        "states": _states(chart.table),
        "counters": list(chart.counters),
        "meaning": {
            given.value: {
                mark.value: {**cell.__dict__, "outcome": OUTCOMES.index(cell.outcome)}
                for mark, cell in cells.items()
            }
            for given, cells in chart.meaning.items()
        },
        "check": _states(chart.check),
        "closing": chart.closing,
        "order": chart.order,
        "waits": list(chart.waits),
        "reentry": [{"days": days, "back": back} for days, back in chart.reentry],
        "places": [
            {**p.__dict__, "descent": list(p.descent), "entry": list(p.entry)} for p in chart.places
        ],
        "ladders": {family: ladder for family, ladder in chart.ladders.items()},
        **(_second(chart) if chart.version > 1 else {}),
    }


def _second(chart: Chart) -> dict[str, Any]:
    """What charts have from version 2 on."""
    return {
        "usual": chart.usual,
        "keep": [None if row is None else list(row) for row in chart.table.keep],
        "back": chart.back,
        "milder": chart.milder,
        "intervals": list(chart.intervals),
        "find": chart.find
        and {
            "most": chart.find.most,
            "states": [
                {"rung": state.rung, "to": [list(each) for each in state.to]}
                for state in chart.find.states
            ],
        },
    }


def _find(doc: Mapping[str, Any] | None) -> Find | None:
    if doc is None:
        return None
    states = (
        FindState(each["rung"], tuple((n, bool(placed)) for n, placed in each["to"]))
        for each in doc["states"]
    )
    return Find(tuple(states), doc["most"])


def _states(table: Table) -> list[dict[str, Any]]:
    return [
        {"to": [[n, m.value] for n, m in row], "have": have, "need": need}
        for row, (have, need) in zip(table.rows, table.progress, strict=True)
    ]


def _table(states: list[Mapping[str, Any]], keep: Sequence[Sequence[int] | None] = ()) -> Table:
    return Table(
        tuple(tuple((n, Move(m)) for n, m in s["to"]) for s in states),
        tuple((s["have"], s["need"]) for s in states),
        len(states) - 1,
        tuple(None if row is None else tuple(row) for row in keep),
    )


def _ladder(ladder: Ladder | None) -> dict[str, Any] | None:
    """A ladder in words: each rung, and what changes on the way up to it and down to it."""
    if ladder is None:
        return None
    last = len(ladder) - 1
    return {
        "rungs": [
            {"label": ladder.label(i), "grades": ladder.grades(i)} for i in range(len(ladder))
        ],
        "up": [str(ladder.change(i - 1, i)) if i else "" for i in range(len(ladder))],
        "down": [str(ladder.change(i + 1, i)) if i < last else "" for i in range(len(ladder))],
    }


def meaning(chart: Chart, given: Given, mark: Mark) -> Meaning:
    """The meaning of a mark, or a RuleError saying what can be given."""
    cells = chart.meaning.get(given)
    if cells is None:
        able = ", ".join(chart.meaning)
        why = say("this drill gives %(able)s, not %(given)s", able=able, given=given)
        raise RuleError("given", why)
    if mark not in cells:
        able = ", ".join(cells)
        why = say(
            "after %(given)s it is one of %(able)s, not %(mark)s", given=given, able=able, mark=mark
        )
        raise RuleError("mark", why)
    return cells[mark]
