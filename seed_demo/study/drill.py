"""Plain invented drills for the study: one ladder of each kind, any rule."""

from __future__ import annotations

from cueladder.rules import Drill, Rule

_TEXTS = {
    "name": "Study drill",
    "action": "Parry of quarte with direct riposte",
    "purpose": "Answer a cue of growing difficulty.",
    "how": "Give the cue at its rung.",
    "safety": "Mask, jacket, plastron and glove.",
    "alone": "Ten slow parries before a mirror.",
}
_SCALES = {
    "read": ("size", ("whole arm", "forearm", "wrist", "fingers"), "speed"),
    "heat": ("force", ("touch", "tap", "knock", "blow"), "voice"),
}
_SECOND = ("none", "little", "some", "much", "full")
RUNGS = 6


def drill(kind: str, rule: Rule, *, rungs: int = RUNGS, cap: int = 40) -> Drill:
    """A drill of one kind under a rule.

    Args:
        kind: sensitization, desensitization or discrimination.
        rule: when to climb or step back.
        rungs: rungs of each ladder, 2 to 8.
        cap: cues at one rung without a decision.
    """
    families = {
        "sensitization": ["read"],
        "desensitization": ["heat"],
        "discrimination": ["read", "heat"],
    }[kind]
    doc = {
        "slug": "study-drill",
        **_TEXTS,
        "weapon": ["foil"],
        "kind": kind,
        "gives": "attacks" if kind == "sensitization" else "either",
        "scales": {},
        "cap": cap,
    }
    for family in families:
        first, grades, second = _SCALES[family]
        doc["scales"] |= {
            first: {"family": family, "grades": list(grades)},
            second: {"family": family, "grades": list(_SECOND)},
        }
        doc[family] = [{first: (i + 1) // 2, second: i // 2} for i in range(rungs)]
    checked = Drill.from_json(doc)
    return Drill(**{**checked.__dict__, "rule": rule})
