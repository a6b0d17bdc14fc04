"""How many examples a property is tried on. Not a test module."""

from __future__ import annotations

import os
from typing import Any

from hypothesis import settings

# few in `make test`, where each run draws others; many in `make agree`
TIMES = int(os.environ.get("CUELADDER_EXAMPLES", "1"))


def examples(number: int, **more: Any) -> settings:
    """So many examples in `make test`, however long each takes."""
    return settings(max_examples=number * TIMES, deadline=None, **more)
