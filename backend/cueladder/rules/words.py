"""The sentences a coach reads on the strip, by reason; the phone tells them in its language."""

from __future__ import annotations

from .said import later

MOVES = {
    "stay": later("Again"),
    "climb": later("One step on"),
    "back": later("One step back"),
    "rest": later("Stop this drill for today"),
}

WHY = {
    "fresh": later("New drill: start with the plainest, mildest cue."),
    "pass": later("Clean. Give it again."),
    "hold": later("Right, but tense: it neither counts nor costs. Give it again, relaxed."),
    "late": later("Late: not read yet. Give the same cue again."),
    "early": later("Too early or too big: the cue startled. Same cue again, calmly."),
    "reacted": later("Fell for it. Same cue again, calmly."),
    "waits": later("This half is ready; the other half still counts."),
    "climb": later("Rule met here: one small step on."),
    "back_read": later("Slips came too close together: make the cue plainer."),
    "back_heat": later("Still jumpy: make the cue milder."),
    "back_early": later("Early again and again: one step back, and give some time to {paired}."),
    "bottom_read": later("This is already the plainest cue: show it again, slowly."),
    "bottom_heat": later("This is already the mildest cue: slow down and breathe."),
    "top": later("Top of the ladder held. Stop on this success."),
    "cap": later("Long enough on this rung: stop this drill for today, finish on something sure."),
    "check": later("Re-check: no slip allowed before climbing."),
    "held": later("It held on a later day: secure. On from here."),
    "sure": later("Clean here: on from here."),
    "failed": later("It did not hold today: it stays in training, nothing is lost."),
    "kept": later("On where you left off: the count goes on."),
    "on": later("On where you left off: the count starts here."),
    "seek": later("Finding the start: nothing counts yet."),
    "placed": later("A good rung to start from; the count starts here."),
    "changed": later("The drill was changed: on from the same rung."),
    "closing": later("A sure success to finish."),
    "done": later("Finished on a success. Another drill now."),
    "set": later("Set by hand; the count starts here."),
    "rested": later("Stopped for today."),
    "stopped": later("Stop was called: nothing intense today, and one rung lower next time."),
}
