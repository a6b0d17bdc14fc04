"""The sentences a coach reads on the strip, by reason. They travel in the chart."""

from __future__ import annotations

MOVES = {
    "stay": "Again",
    "climb": "One step on",
    "back": "One step back",
    "rest": "Leave it for today",
}

WHY = {
    "fresh": "New drill: start with the plainest, mildest cue.",
    "pass": "Clean. Give it again.",
    "hold": "Right, but tense: not counted yet. Give it again, relaxed.",
    "late": "Late: not read yet. Give the same cue again.",
    "early": "Too early or too big: the cue startled. Same cue again, calmly.",
    "reacted": "Went for the decoy. Same cue again, calmly.",
    "waits": "This half is ready; the other half still counts.",
    "climb": "Rule met here: one small step on.",
    "back_read": "Slips came too close together: make the cue plainer.",
    "back_heat": "The startle won: make the cue milder.",
    "back_early": "Early twice running: one step back, and give some time to {paired}.",
    "bottom_read": "This is already the plainest cue: show it again, slowly.",
    "bottom_heat": "This is already the mildest cue: slow down and breathe.",
    "top": "Top of the ladder held. Leave it on this success.",
    "cap": "Long enough on this rung: leave the drill today, finish on something sure.",
    "check": "Re-check: no slip allowed before climbing.",
    "held": "It held on a later day: secure. On from here.",
    "failed": "It did not hold today: one rung back, no harm done.",
    "closing": "A sure success to finish.",
    "done": "Finished on a success. Another drill now.",
    "set": "Set by hand; the count starts here.",
    "rested": "Left for today.",
}
