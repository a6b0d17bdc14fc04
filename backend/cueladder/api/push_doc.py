"""How a push looks, for the API's documentation (each event is checked apart, not the body)."""

from __future__ import annotations

from typing import Any

_EVENT: dict[str, Any] = {
    "type": "object",
    "required": ["id", "type", "device", "n", "at", "coach", "lesson"],
    "properties": {
        "id": {"type": "string", "format": "uuid"},
        "type": {
            "type": "string",
            "enum": [
                "lesson_opened",
                "cue_marked",
                "mark_voided",
                "rung_set",
                "drill_rested",
                "comfort_rated",
                "note_written",
                "lesson_closed",
            ],
        },
        "device": {"type": "string", "format": "uuid"},
        "n": {"type": "integer", "minimum": 1},
        "at": {"type": "string", "format": "date-time"},
        "coach": {"type": "string", "format": "uuid"},
        "lesson": {"type": "string", "format": "uuid"},
    },
}
PUSH = {
    "required": True,
    "content": {
        "application/json": {
            "schema": {
                "type": "object",
                "required": ["events"],
                "properties": {"events": {"type": "array", "maxItems": 500, "items": _EVENT}},
            }
        }
    },
}
_RESULT = {
    "type": "object",
    "required": ["id", "status"],
    "properties": {
        "id": {"type": "string", "nullable": True},
        "status": {"type": "string", "enum": ["stored", "already", "refused"]},
        "why": {"type": "object", "additionalProperties": {"type": "array"}},
    },
}
PUSHED = {
    "description": "What became of each event, in the order sent",
    "content": {
        "application/json": {
            "schema": {
                "type": "object",
                "required": ["results", "lessons", "standings", "seq"],
                "properties": {
                    "results": {"type": "array", "items": _RESULT},
                    "lessons": {"type": "array", "items": {"type": "object"}},
                    "standings": {"type": "array", "items": {"type": "object"}},
                    "seq": {"type": "integer"},
                },
            }
        }
    },
}
