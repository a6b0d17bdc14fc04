"""Which rules should drills start with? One command:

    python -m seed_demo.study --out DIR [--quick]

Invented fencers climb ladders of seven rungs through twenty lessons under each rule. Written are
``conditions.csv`` (the settings in every condition) and ``candidates.csv`` (rules all around the
usual ones); printed are the tables, two limits no rule can pass, and each bar beside its figure.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from pathlib import Path

from .figures import LEARNERS, table, write
from .forecast import coverage
from .plan import FULL, QUICK, Found, study
from .verdict import bars, near_usual, of_find, of_flawless, of_limits


def main(argv: Sequence[str] | None = None) -> None:
    """Run the study from the command line."""
    parser = argparse.ArgumentParser(prog="seed_demo.study", description=__doc__)
    parser.add_argument("--out", type=Path, required=True, help="folder for the tables")
    parser.add_argument("--quick", action="store_true", help="few fencers, few rules")
    parser.add_argument("--coverage", action="store_true", help="also check the forecast's range")
    parser.add_argument("--each", type=int, help="fencers of each learner")
    parser.add_argument("--seed", type=int, help="seed of fencers, calendars and luck")
    options = parser.parse_args(argv)
    plan = QUICK if options.quick else FULL
    changes = {k: v for k in ("each", "seed") if (v := getattr(options, k)) is not None}
    plan = replace(plan, **changes)
    if options.quick:
        found = study(plan, map)
    else:
        with ProcessPoolExecutor() as pool:
            found = study(plan, pool.map)
    out: Path = options.out
    out.mkdir(parents=True, exist_ok=True)
    write(found.conditions, out / "conditions.csv")
    write(found.candidates, out / "candidates.csv")
    print(report(found))
    if options.coverage:
        print("\nForecast: share of true lessons-to-the-top inside the 80 % range")
        for model, measured in coverage(plan.seed).items():
            print(f"  {model}: {measured}")


def report(found: Found) -> str:
    """All tables in words and figures."""
    everybody = [row for row in found.conditions if row.who == LEARNERS]
    usual = [row for row in found.conditions if row.rule == "usual"]
    parts = [
        ("The settings and two other rules, the three learners together", everybody, ("rule",)),
        ("The usual setting, learner by learner", usual, ("who",)),
    ]
    text = []
    for title, rows, lead in parts:
        text += [title, table(rows, "kind", "cues", "calendar", *lead), ""]
    for title, lines in (
        ("Rules around the usual one: most rungs at no more early climbs", near_usual(found)),
        ("A fencer who never errs, weekly: lesson in which each rung is met", of_flawless()),
        ("Limits", of_limits(found)),
        ("Finding the start, seven rungs (exact)", of_find()),
        ("Bars", bars(found)),
    ):
        text += [title, *("  " + line for line in lines), ""]
    return "\n".join(text)


if __name__ == "__main__":
    main()
