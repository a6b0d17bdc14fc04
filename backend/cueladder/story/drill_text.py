"""What a drill says, told in the reader's language: the starters are translated, a club's own drill
is told as its coach wrote it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from ..rules.drill import NEEDED
from ..rules.said import written
from ..store.drills.library import starter_texts

TEXTS = ("name", "action", "purpose", "how", "safety", "alone", "feet")
SPOKEN = ("cues", "counts")


def drill_text(document: Mapping[str, Any], field: str) -> str:
    """One of a drill's texts."""
    text = str(document[field])
    return text if "language" in document else written(text)


def told_drill(document: Mapping[str, Any]) -> dict[str, Any]:
    """A document with all its texts to be told in the reader's language."""
    return dict(document) if "language" in document else each_text(document, written)


def kept_drill(
    document: Mapping[str, Any], language: str, english: Callable[[str], str]
) -> dict[str, Any]:
    """A document as it is stored, from what a coach sent.

    What a starter drill says goes back to English, so that every reader gets it in their own
    language. A drill with neither aim nor way of giving it from a starter is the club's own, in the
    language of the coach.

    Args:
        document: what came, in the coach's language.
        language: the coach's language.
        english: the English of a starter's text, any other text as it stands.
    """
    document = {field: "" for field in TEXTS if field not in NEEDED} | dict(document)
    if not document["feet"]:
        del document["feet"]
    if "language" in document:
        return document
    kept = each_text(document, english)
    own = not any(kept.get(field) in starter_texts() for field in ("purpose", "how"))
    return {**kept, "language": language} if own else kept


def each_text(document: Mapping[str, Any], change: Callable[[str], str]) -> dict[str, Any]:
    """The document with each of its texts changed; what is no text is left alone."""

    def one(value: Any) -> Any:
        if isinstance(value, str):
            return change(value)
        if isinstance(value, list):
            return [one(each) for each in value]
        if isinstance(value, dict):
            return {name: one(each) for name, each in value.items()}
        return value

    changed = {field: one(document[field]) for field in (*TEXTS, *SPOKEN) if field in document}
    scales = document.get("scales")
    if isinstance(scales, dict):
        changed["scales"] = {name: _grades(scale, one) for name, scale in scales.items()}
    return {**document, **changed}


def _grades(scale: Any, one: Callable[[Any], Any]) -> Any:
    if not isinstance(scale, dict) or "grades" not in scale:
        return scale
    return {**scale, "grades": one(scale["grades"])}
