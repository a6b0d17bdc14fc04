"""Which rule should be the default? One command:

    python -m seed_demo.study --out DIR [--quick]

Simulated fencers climb a ladder through a season under every rule; written are ``frontier.csv``
and ``frontier.svg``, printed is the default's place. The question has two sides: *cues to the
top* (mean over fencers; who does not get there in the season counts with the whole season's
allowance) and *early climbs* (share of the climbs at which the fencer's true chance of a pass at
the rung was below .85 at that cue).
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from .coverage import coverage
from .learners import MODELS
from .study_figure import draw_frontier
from .study_rules import BASELINE, settings
from .study_table import POOLED, Rival, Table, equal_early, error, rivals, run
from .study_year import year

MARGIN = 0.05
SHORTLIST = 5

__all__ = ["Plan", "Study", "coverage", "main", "study"]


@dataclass(frozen=True)
class Plan:
    """Size of a study.

    Attributes:
        kind: drill kind.
        rungs: rungs of the ladder.
        lessons: lessons of the drill in the season.
        cues: most cues of the drill in a lesson.
        fencers: fencers of each model when every setting is tried.
        again: fencers of each model, with a fresh seed, for the default and its strongest
            rivals.
        seed: the study's seed.
        quick: a coarse grid.
    """

    kind: str = "sensitization"
    rungs: int = 6
    lessons: int = 40
    cues: int = 40
    fencers: int = 1000
    again: int = 5000
    seed: int = 1954
    quick: bool = False


QUICK = Plan(rungs=4, lessons=16, fencers=250, again=500, quick=True)


@dataclass(frozen=True)
class Study:
    """Outcomes: all settings once, then the default and its strongest rivals again."""

    plan: Plan
    first: Table
    second: Table

    def strongest(self, model: str = POOLED) -> Rival:
        """The strongest rival of the default, on the fresh fencers."""
        return rivals(self.second, model)[0]


def study(plan: Plan) -> Study:
    """Run a study: try every setting, then the shortlist again on fresh fencers.

    The second run frees the verdict from the luck of the first (the best of many looks better
    than it is).
    """
    tried = settings(plan.quick)
    first = _run(plan, tried, plan.fencers, plan.seed)
    ours = {s.label for s in tried if s.family != BASELINE}
    short = {
        rival.label
        for model in (POOLED, *MODELS)
        for rival in [r for r in rivals(first, model) if r.label in ours][:SHORTLIST]
    }
    kept = [s for i, s in enumerate(tried) if i == 0 or s.label in short]
    return Study(plan, first, _run(plan, kept, plan.again, plan.seed + 1))


def _run(plan: Plan, tried: Sequence, fencers: int, seed: int) -> Table:
    years = {m: year(m, fencers, seed, plan.lessons, plan.cues) for m in MODELS}
    return run(tried, years, plan.kind, plan.rungs, seed)


COLUMNS = (
    "run",
    "model",
    "family",
    "label",
    "rule",
    "check_cues",
    "cues",
    "cues_error",
    "early_share",
    "early_share_error",
    "early_per_fencer",
    "climbs_per_fencer",
    "early_share_with_rechecks",
    "reached",
    "lessons",
)


def rows(study: Study) -> list[dict[str, object]]:
    """The rows of ``frontier.csv``, as COLUMNS say; errors are Monte-Carlo standard errors."""
    found: list[dict[str, object]] = []
    for number, table in enumerate((study.first, study.second), 1):
        for model in (POOLED, *MODELS):
            cues, early = table.mean("cues", model), table.early(model)
            per, climbs = table.mean("early", model)[0], table.mean("climbs", model)[0]
            held = table.mean("holds", model)[0]
            soft = table.mean("early_holds", model)[0]
            reached, lessons = table.mean("reached", model)[0], table.mean("lessons", model)[0]
            for i, s in enumerate(table.settings):
                values = (
                    number,
                    model,
                    s.family,
                    s.label,
                    json.dumps(s.rule.to_json()),
                    s.check_cues,
                    round(cues[0, i], 2),
                    round(error(cues)[i], 2),
                    round(early[0, i], 5),
                    round(error(early)[i], 5),
                    round(per[i], 4),
                    round(climbs[i], 3),
                    round((per[i] + soft[i]) / max(climbs[i] + held[i], 1e-12), 5),
                    round(reached[i], 4),
                    round(lessons[i], 3),
                )
                found.append(dict(zip(COLUMNS, values, strict=True)))
    return found


def report(study: Study) -> str:
    """The verdict in words and figures."""
    lines = [f"{study.plan}", ""]
    table = study.second
    for model in (POOLED, *MODELS):
        cues, early = table.mean("cues", model), table.early(model)
        best = study.strongest(model)
        verdict = "BEATEN on both by more than 5 %" if best.worse < 1 - MARGIN else "not beaten"
        lines += [
            f"{model}: default {cues[0, 0]:.0f} cues (error {error(cues)[0]:.1f}), early climbs "
            f"{early[0, 0]:.2%} (error {error(early)[0]:.2%}), top reached by "
            f"{table.mean('reached', model)[0, 0]:.0%}: {verdict}",
            f"    strongest rival {best.label}: cues x{best.cues:.3f} ({best.cues_error:.3f}), "
            f"early x{best.early:.3f} ({best.early_error:.3f}), "
            f"the larger x{best.worse:.3f} ({best.worse_error:.3f})",
        ]
    lines += ["", "change-point family against baselines at equal early climbs:"]
    first = study.first
    for i, s in enumerate(first.settings):
        if s.family == BASELINE:
            cues, early = first.mean("cues"), first.early()
            ratio, spread = equal_early(first, i)
            number, off = equal_early(first, i, per_fencer=True)
            each = ", ".join(f"{m} x{equal_early(first, i, m)[0]:.3f}" for m in MODELS)
            lines.append(
                f"    {s.label}: {cues[0, i]:.0f} cues, early {early[0, i]:.1%}, "
                f"{first.mean('early')[0, i]:.2f} a fencer; at equal share the family needs "
                f"x{ratio:.3f} ({spread:.3f}; {each}), at equal number x{number:.3f} ({off:.3f})"
            )
    return "\n".join(lines)


def main(argv: Sequence[str] | None = None) -> None:
    """Run the study from the command line."""
    parser = argparse.ArgumentParser(prog="seed_demo.study", description=__doc__)
    parser.add_argument("--out", type=Path, required=True, help="folder for the results")
    parser.add_argument("--quick", action="store_true", help="coarse grid, few fencers")
    parser.add_argument("--coverage", action="store_true", help="also check the forecast's range")
    for name, kind in (("kind", str), ("rungs", int), ("lessons", int), ("cues", int)):
        parser.add_argument(f"--{name}", type=kind)
    for name in ("fencers", "again", "seed"):
        parser.add_argument(f"--{name}", type=int)
    options = vars(parser.parse_args(argv))
    fields = Plan.__dataclass_fields__
    asked = {k: v for k, v in options.items() if k in fields and k != "quick" and v is not None}
    done = study(replace(QUICK if options["quick"] else Plan(), **asked))
    out: Path = options["out"]
    out.mkdir(parents=True, exist_ok=True)
    found = rows(done)
    lines = [",".join(COLUMNS)]
    lines += [",".join(_cell(row[c]) for c in COLUMNS) for row in found]
    (out / "frontier.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    draw_frontier(found, out / "frontier.svg")
    print(report(done))
    if options["coverage"]:
        print("\nforecast, share of true lessons-to-the-top inside the 80 % range:")
        for model, measured in coverage(np.random.default_rng(done.plan.seed)).items():
            print(f"    {model}: {measured}")


def _cell(value: object) -> str:
    text = str(value)
    return '"' + text.replace('"', '""') + '"' if "," in text or '"' in text else text


if __name__ == "__main__":
    main()
