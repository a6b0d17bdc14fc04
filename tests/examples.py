"""How many examples a property is tried on. Not a test module."""

from __future__ import annotations

import os
from typing import Any

from hypothesis import settings

# few in `make test`, the same in each run; many in `make agree`, where each run draws others
TIMES = int(os.environ.get("CUELADDER_EXAMPLES", "1"))


def examples(number: int, **more: Any) -> settings:
    """So many examples in `make test`, however long each takes."""
    return settings(max_examples=number * TIMES, deadline=None, **more)
