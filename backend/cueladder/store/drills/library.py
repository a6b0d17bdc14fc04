"""The starter drills, which are JSON files."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from sqlalchemy import select

from ...rules import Drill as RuleDrill
from ...rules import RuleError
from ...rules.drill import TEXTS
from ..db.engine import db
from ..db.models import Drill
from .versions import add_drill

FOLDER = Path(__file__).parent.parent.parent / "library"


def library(folder: Path = FOLDER) -> list[dict[str, Any]]:
    """Read and check the drill documents of a folder, by slug.

    Raises:
        RuleError: a file is no drill; the field starts with the file's name.
    """
    documents = []
    for path in sorted(folder.glob("*.json")):
        try:
            document = json.loads(path.read_text("utf-8"))
            drill = RuleDrill.from_json(document)
        except RuleError as error:
            raise RuleError(f"{path.name}: {error.field}", error.message) from None
        except ValueError as error:
            raise RuleError(path.name, f"is no JSON: {error}") from None
        if drill.slug != path.stem:
            raise RuleError(f"{path.name}: slug", f"should be the file's name, not {drill.slug}")
        documents.append(document)
    return documents


@cache
def starter_texts() -> frozenset[str]:
    """Every sentence and grade of the starter drills."""
    found: set[str] = set()
    for document in library():
        found |= {document[field] for field in (*TEXTS, "feet") if document.get(field)}
        for field in ("cues", "counts"):
            found |= set(document.get(field, {}).values())
        for scale in document["scales"].values():
            found |= set(scale["grades"])
    return frozenset(found)


def add_library(club_id: int, folder: Path = FOLDER) -> int:
    """Add the starter drills a club does not have yet (by slug); returns how many."""
    there = set(db.session.scalars(select(Drill.slug).where(Drill.club_id == club_id)))
    missing = [document for document in library(folder) if document["slug"] not in there]
    for document in missing:
        add_drill(club_id, document)
    return len(missing)
