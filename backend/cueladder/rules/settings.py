"""The figures of the rules, all in one place: change them here, and nothing else need be touched.

The counts, intervals and shares were chosen by experiment (see pages/guide/default-rule.md);
where the next lesson starts after a break is common practice, no published source.
"""

from __future__ import annotations

# Three settings a coach can choose between, by kind of drill: clean answers to the goal, what a
# slip costs, how far below nothing slips may leave the count, and how many slips close together
# lead one rung back. One knob: the three differ in the number of clean answers alone.
READING = {
    "quick": {"goal": 15, "slip": 10, "floor": 0, "patience": 4},
    "usual": {"goal": 20, "slip": 10, "floor": 0, "patience": 4},
    "strict": {"goal": 25, "slip": 10, "floor": 0, "patience": 4},
}
# One slip may be owed: tense answers leave the count alone, so it must not forget slips too soon.
HEAT = {
    "quick": {"goal": 15, "slip": 10, "floor": 10, "patience": 4},
    "usual": {"goal": 20, "slip": 10, "floor": 10, "patience": 4},
    "strict": {"goal": 25, "slip": 10, "floor": 10, "patience": 4},
}
# In a mixed drill both halves count, each by itself; four slips may be owed.
MIXED = {
    "quick": {"goal": 12, "slip": 7, "floor": 28, "patience": 4},
    "usual": {"goal": 15, "slip": 7, "floor": 28, "patience": 4},
    "strict": {"goal": 18, "slip": 7, "floor": 28, "patience": 4},
}
SETTINGS = {"sensitization": READING, "desensitization": HEAT, "discrimination": MIXED}
# What a slip adds to the sum that says back; a clean answer takes one off.
DROP = 2
# What a step back leaves of a finished count on the rung it leads to.
AFTER_BACK = 0.5

# A drill's own figures where its document says nothing.
CAP = 40
STARTLES = 3
CUES_A_LESSON = {"sensitization": 25, "desensitization": 25, "discrimination": 35}

# By days since the drill was last worked: up to `days`, so many rungs lower ("half": halfway
# down), but never higher than after a shorter break; and the share of a count that is left.
# A reading rung is asked for in another setting once it has held so often in one (house choice).
READ_HOLDS = 2

REENTRY: tuple[tuple[int | None, int | str, float], ...] = (
    (10, 0, 1.0),
    (28, 1, 0.5),
    (90, 2, 0.0),
    (None, "half", 0.0),
)
# A rung that has held so often starts as after the next shorter break.
MILDER = 3

# Re-checks: clean cues; and the days after which a rung is due again, by how often it has held
# (the last for all more). Startle comes back sooner than a misreading.
CHECK_CUES = 3
INTERVALS = {"read": (1, 28, 90), "heat": (1, 21, 60)}

# Sure cues that end a drill left for the day.
CLOSING_CUES = 3
