"""What a look at a club's lessons takes: time and memory at 10,000, 100,000 and a million marks.

    python -m tests.bench.learn [--sizes 10000 100000 1000000]

The log is a small club's evenings copied inside the database (as in `server_growth`), read by
`store.replay.learned`; the fit is of planted clubs of as many marks: up to 60 fencers on three
drills, then more seasons of them. Each size runs in a process of its own, whose largest size in
memory is told; the first line is what the program takes before it has read anything.
"""

from __future__ import annotations

import argparse
import os
import resource
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter, process_time

import numpy as np

SIZES = (10_000, 100_000, 1_000_000)
CUES, FENCERS, DRILLS = 20, 60, 3


def main() -> None:
    """Print a line a size."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sizes", type=int, nargs="+", default=list(SIZES))
    parser.add_argument("--read", type=Path)
    parser.add_argument("--fit", type=int)
    asked = parser.parse_args()
    if asked.read is not None:
        read(asked.read)
    elif asked.fit is not None:
        fitted(asked.fit)
    else:
        with tempfile.TemporaryDirectory(dir=".") as name:
            for folder in grown(Path(name), asked.sizes):
                run("--read", str(folder))
        for size in [0, *asked.sizes]:
            run("--fit", str(size))


def run(*words: str) -> None:
    """One measurement in a process of its own, on one thread."""
    alone = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
    subprocess.run([sys.executable, "-m", "tests.bench.learn", *words], check=True, env=alone)


def grown(folder: Path, sizes: list[int]) -> list[Path]:
    """A database of each size."""
    from sqlalchemy import func, select

    from cueladder.store.db.engine import db
    from cueladder.store.db.models import Event
    from tests.bench.server_growth import base, grow, opened

    made, copies = [], 1
    with opened(folder) as app:
        club = base(app)
        each = db.session.scalar(
            select(func.count()).select_from(Event).where(Event.type == "cue_marked")
        )
        db.session.remove()
        for step, size in enumerate(sizes):
            grow(club, range(copies, max(copies, size // each)))
            copies = max(copies, size // each)
            with db.engine.connect() as connection:
                connection.exec_driver_sql("ROLLBACK")
                connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
                connection.exec_driver_sql("BEGIN")
            made.append(folder / f"{step}")
            made[-1].mkdir()
            shutil.copy(folder / "cueladder.sqlite", made[-1])
    return made


def read(folder: Path) -> None:
    """Read the log of the only club."""
    from cueladder.store.access.clubs import only_club
    from cueladder.store.drills.versions import drills_of
    from cueladder.store.replay.learned import gathered
    from tests.bench.server_growth import opened

    with opened(folder):
        club = only_club()
        assert club is not None
        charts = {v.drill_id: v.chart_id for _, v in drills_of(club.id)}
        began = perf_counter(), process_time()
        found = gathered(club.id, charts)
        marks = sum(one.cells.marks for one in found.values())
    say(f"read  {marks:>9,} marks", began)


def fitted(marks: int) -> None:
    """Fit a planted club of so many marks."""
    from cueladder.evidence.learning.fit import fit
    from tests.learning.planted import Size, planted, truth

    rng = np.random.default_rng(1)
    began = perf_counter(), process_time()
    if not marks:
        say("empty", began)
        return
    fencers = min(FENCERS, max(8, marks // (CUES * DRILLS * 12)))
    lessons = max(2, marks // (CUES * DRILLS * fencers))
    cells = planted(truth(rng), Size(fencers, DRILLS, lessons, CUES), rng)
    say(f"made  {cells.marks:>9,} marks, {len(cells.n):,} cells", began)
    began = perf_counter(), process_time()
    found = fit(cells, rng)
    say(f"fit   {cells.marks:>9,} marks, draws worth {found.sound:.0%}", began)


def say(what: str, began: tuple[float, float]) -> None:
    """What it took."""
    wall, cpu = perf_counter() - began[0], process_time() - began[1]
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{what}: {wall:.1f} s ({cpu:.1f} s of a processor), {most:.0f} MB at most", flush=True)


if __name__ == "__main__":
    main()
