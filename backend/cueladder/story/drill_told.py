"""A drill as a reader gets it: its texts in the reader's language, and what follows from it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from functools import lru_cache
from typing import Any

from ..rules import Drill
from ..rules.elsewhere import card_for
from ..rules.reaction import left_on
from ..rules.said import written
from .care import care
from .drill_text import told_drill

SHOWN = ("name", "kind", "weapon", "action", "purpose", "how", "safety", "alone", "paired")


def told_in_full(document: Mapping[str, Any], language: str) -> dict[str, Any]:
    """A drill's document and what follows from it, to be told in the reader's language.

    Returns:
        ``document`` with its texts told, those of SHOWN beside it too, and ``language``: the one
        they are in; ``grades``: a chart's words for a grade → the reader's, where they differ;
        ``care``: what holds for such a drill; ``left``: for each ladder the ms each rung leaves to
        react in (None: no limit); ``loud_from``: the heat rung, from 0, from which loud and soft
        differ, None where there is no heat; ``noisy_from``: the heat rung from which voice or
        stamp needs the fencer's consent, None where none does; ``partner``: what a partner's card
        may ask for, None where the drill stays with a coach.
    """
    told = told_drill(document)
    own = "language" in document
    return {
        **{name: told.get(name) for name in SHOWN},
        "document": told,
        "language": document["language"] if own else language,
        "grades": {} if own or language == "en" else _grades(document),
        **_follows(json.dumps(document)),
    }


def _grades(document: Mapping[str, Any]) -> dict[str, str]:
    return {
        grade: written(grade) for scale in document["scales"].values() for grade in scale["grades"]
    }


@lru_cache(maxsize=512)
def _follows(document: str) -> dict[str, Any]:
    """What a stored document comes to; kept, since the club is asked for at every start."""
    drill = Drill.from_json(json.loads(document))
    card = card_for(drill.kind)
    ladders = {"read": drill.read, "heat": drill.heat}
    others = {"read": drill.heat, "heat": drill.read}
    return {
        "care": care(drill),
        "left": {
            name: left_on(drill.timing, ladder, others[name]) if ladder else None
            for name, ladder in ladders.items()
        },
        "loud_from": drill.brief.loud_from if drill.heat else None,
        "noisy_from": drill.heat.noisy_from() if drill.heat else None,
        "partner": asdict(card) if card else None,
    }
