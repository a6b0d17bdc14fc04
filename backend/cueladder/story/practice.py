"""Practice at home, as shown to the coach."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from ..rules.said import say, say_n

WEEKS = 4


def at_home(days: list[str], today: date) -> dict[str, Any]:
    """Days on which a drill was practised at home, with a sentence.

    Args:
        days: ISO days within the last WEEKS weeks, oldest first.
        today: the day it is.
    """
    week = (today - timedelta(days=7)).isoformat()
    recent = sum(day > week for day in days)
    if not days:
        words = say("No practice at home was ticked off in the last %(weeks)s weeks.", weeks=WEEKS)
    else:
        words = say_n(
            "Practised at home on %(n)s day of the last %(days)s, %(recent)s of them in the last "
            "week.",
            "Practised at home on %(n)s days of the last %(days)s, %(recent)s of them in the last "
            "week.",
            len(days),
            days=7 * WEEKS,
            recent=recent,
        )
    return {"days": days, "words": words}
