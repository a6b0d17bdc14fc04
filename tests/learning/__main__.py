"""`python -m tests.learning`: planted figures recovered, and how often the ranges hold.

python -m tests.learning [--clubs 200] [--seed 7]
"""

from __future__ import annotations

import argparse
import os
import time
from concurrent.futures import ProcessPoolExecutor

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from .coverage import coverage, table
from .planted import Size


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--clubs", type=int, default=200)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--fencers", type=int, default=Size.fencers)
    parser.add_argument("--lessons", type=int, default=Size.lessons)
    asked = parser.parse_args()
    began = time.monotonic()
    size = Size(fencers=asked.fencers, lessons=asked.lessons)
    with ProcessPoolExecutor(2) as pool:
        held = coverage(asked.clubs, asked.seed, size, pool.map)
    print(f"{asked.clubs} clubs of {size}, seed {asked.seed}; promised: 80 % inside")
    print(table(held))
    print(f"{time.monotonic() - began:.0f} s")


if __name__ == "__main__":
    main()
