"""How long a test waits for what should come. Not a test module.

No machine is too slow to pass: a limit only ends a run in which something never comes.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from typing import TypeVar

# while writing a test one need not wait as long
SECONDS = float(os.environ.get("CUELADDER_PATIENCE", "180"))
Found = TypeVar("Found")


def until(
    true: Callable[[], Found], what: str = "it", pause: Callable[[float], object] = time.sleep
) -> Found:
    """Ask again and again until the answer is true; returns it.

    Args:
        true: what is asked.
        what: what is waited for, for the error.
        pause: waits so many seconds; a browser's page must wait by itself (`page_until`).

    Raises:
        TimeoutError: it did not come.
    """
    end = time.monotonic() + SECONDS
    while not (found := true()):
        if time.monotonic() > end:
            raise TimeoutError(f"{what} did not come within {SECONDS} s")
        pause(0.02)
    return found
