"""Practice at home, told to the coach."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from ..evidence.words import count

WEEKS = 4


def at_home(days: list[str], today: date) -> dict[str, Any]:
    """Days a drill was practised alone, and one sentence.

    Args:
        days: ISO days within the last WEEKS weeks, oldest first.
        today: the day it is.
    """
    week = (today - timedelta(days=7)).isoformat()
    recent = sum(day > week for day in days)
    if not days:
        words = f"No practice at home was ticked off in the last {WEEKS} weeks."
    else:
        words = (
            f"Practised at home on {count(len(days), 'day')} of the last {7 * WEEKS}, "
            f"{recent} of them in the last week."
        )
    return {"days": days, "words": words}
