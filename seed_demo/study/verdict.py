"""The study's figures held against limits, against each other, and against the bars."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import numpy as np

from cueladder.rules import Kind, Tally
from cueladder.rules.find_table import Family, FindTable, find_table
from cueladder.rules.rule import default_of

from .figures import LEARNERS, Row
from .find import HARDER, SPREADS, fencers, found, one_slip_ends_it, two_down_one_up
from .flawless import lessons
from .optimum import HAZARDS, ratio
from .plan import HEAT, MIXED, READING, Found
from .rules import RUNGS, main_settings

SLACK = 0.0005  # a candidate may make so much more early climbs and still count as no worse
SHOWN = 4
FLAWLESS_CUES = (8, 12, 15, 25, 35, 50)


def near_usual(study: Found) -> Iterator[str]:
    """For each kind the usual rule, and the candidates that climb most at no more early climbs."""
    for condition in (READING, HEAT, MIXED):
        tried = [r for r in study.candidates if r.who == LEARNERS and r.kind == condition.kind]
        usual, others = tried[0], tried[1:]
        able = [row for row in others if row.early <= usual.early + SLACK]
        able.sort(key=lambda row: -row.rungs)
        yield f"{condition.kind}, {condition.cues} cues, {len(others)} others tried"
        for row in [usual, *able[:SHOWN]]:
            figures = f"{row.rungs:.2f} rungs (error {row.error:.2f}), {row.early:.1%} early"
            yield f"  {row.rule}: {figures}"


def of_flawless() -> Iterator[str]:
    """The lessons a fencer who never errs needs, rung by rung."""
    for kind in Kind:
        chart = main_settings(kind)[0].chart()
        for cues in FLAWLESS_CUES:
            met = lessons(chart, cues)
            yield f"{kind.value}, {cues} cues: {', '.join(map(str, met))}"


@cache
def one_rung(rule: Tally) -> list[float]:
    """Cues over the best rule's at equal false climbs, for each of HAZARDS."""
    return [ratio(rule.goal, rule.slip, rule.floor, hazard) for hazard in HAZARDS]


def filter_at(study: Found, early: float) -> float:
    """Rungs of the filter at a share of early climbs, between its thresholds."""
    limits = sorted(study.filtered, key=lambda one: one.early)
    return float(np.interp(early, [one.early for one in limits], [one.rungs for one in limits]))


def of_limits(study: Found) -> Iterator[str]:
    """Both limits."""
    for kind in Kind:
        rule = default_of(kind)
        if isinstance(rule, Tally):
            each = ", ".join(
                f"x{r:.3f} at one change in {1 / hazard:.0f} cues"
                for r, hazard in zip(one_rung(rule), HAZARDS, strict=True)
            )
            yield f"one rung, {kind.value}, usual: cues of the exact optimum {each}"
    for one in study.filtered:
        yield f"filter that knows the learners: {one.rungs:.2f} rungs at {one.early:.1%} early"
    yield f"one who sees the true rate: {study.seen:.2f} rungs"
    usual = study.beside[0]
    yield (
        f"usual: {usual.rungs:.2f} rungs at {usual.early:.1%} early, "
        f"{usual.rungs / filter_at(study, usual.early):.2f} of the filter's at as many"
    )


def of_find() -> Iterator[str]:
    """How the search places invented fencers, and two simpler searches beside it."""
    searches: list[tuple[str, Family, FindTable, float]] = [
        ("reading", "read", find_table(RUNGS, "read"), 0.0),
        ("reading, first three cues harder", "read", find_table(RUNGS, "read"), HARDER),
        ("reading, one slip ends it", "read", one_slip_ends_it(RUNGS), 0.0),
        ("reading, two down one up", "read", two_down_one_up(RUNGS), 0.0),
        ("heat", "heat", find_table(RUNGS, "heat"), 0.0),
    ]
    for name, family, search, harder in searches:
        for spread in SPREADS:
            got = found(search, fencers(RUNGS, family, spread, harder=harder))
            yield (
                f"{name}, {spread}: {len(search.states)} states, cues {got.median}/{got.p90}/"
                f"{got.most}, within one {got.within:.1%}, too high {got.high:.1%}, "
                f"too low {got.low:.1%}, slips {got.slips:.1f}, four or more {got.four:.1%}"
            )


def bars(study: Found) -> Iterator[str]:
    """Each bar beside its figure."""
    base = {r.kind: r for r in study.base if r.who == LEARNERS}
    reading, mixed = base[READING.kind], base[MIXED.kind]
    usual = study.beside[0]
    single = default_of(Kind.SENSITIZATION)
    assert isinstance(single, Tally)
    yield from (
        _bar("reading, 25 cues: rungs", reading.rungs, 5.3, "{:.2f}", most=False),
        _bar("reading, 25 cues: early climbs", reading.early, 0.035, "{:.1%}"),
        _bar("reading, 25 cues: cues in re-checks", reading.checks, 0.05, "{:.1%}"),
        _bar("mixed, 35 cues: rungs", mixed.rungs, 3.0, "{:.2f}", most=False),
        _bar("mixed, 35 cues: early climbs, relaxed", mixed.early, 0.06, "{:.1%}"),
        _bar("one rung: cues of the exact optimum", max(one_rung(single)), 1.06, "{:.3f}"),
        _bar(
            "of the filter's rungs at equal early climbs",
            usual.rungs / filter_at(study, usual.early),
            0.85,
            "{:.2f}",
            most=False,
        ),
    )
    for row in (reading, base[HEAT.kind], mixed):
        yield _said(row)


def _bar(name: str, value: float, bar: float, form: str, *, most: bool = True) -> str:
    met = value <= bar if most else value >= bar
    limit = ("at most " if most else "at least ") + form.format(bar)
    return f"{name}: {form.format(value)}, {limit}: {'met' if met else 'MISSED'}"


def _said(row: Row) -> str:
    return (
        f"{row.kind}, {row.cues} cues, {row.fencers} fencers: {row.rungs:.2f} rungs "
        f"(error {row.error:.2f}), early {row.early:.1%} relaxed, {row.wrong:.1%} right"
    )
