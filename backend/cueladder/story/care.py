"""Care: what must be settled before a drill is given, whoever gives it; beside the drill's own."""

from __future__ import annotations

from ..rules import Drill
from ..rules.said import later, say
from ..rules.scale import NOISE_SCALES

BLADES = later(
    "With blades: mask, jacket, under-plastron, breeches and glove on the fencer, and a chest "
    "protector where the rules ask for one; mask, coaching plastron and glove on the coach. "
    "Inspect the blades first. If one breaks, stop at once and take it off the piste."
)
PLACE = later(
    "Hair and laces tied, a clear, dry piste with run-out behind both, and a place where others "
    "can see the lesson."
)
STOP_WORD = later(
    "Agree a stop word first. Either may say it at any time; both stop at once, and nobody asks "
    "why."
)
NOISE = later(
    "Before the first noise, ask about hearing, asthma and what is too much to hear or feel. "
    "Shout and stamp only with the fencer's consent; for a minor, a parent's or guardian's, too."
)
WORDS = later(
    "Call a neutral word, never a name and never a reproach, and never from closer than lunge "
    "distance."
)
FORCE = later(
    "Hard or sudden cues, and coming close, only with the fencer's consent; for a minor, a "
    "parent's or guardian's, too. Never on a sore arm."
)
STAKES = later(
    "Stakes stay a game: a life lost begins a new set, nobody pays a forfeit and nobody laughs. "
    "The club watches only if the fencer agrees; a minor may say no without a reason."
)
STOP = later("Stop at once on pain, dizziness, trouble with breathing or distress.")
HARD = {"force", "suddenness", "pressure"}


def care(drill: Drill) -> list[str]:
    """The sentences that hold for a drill, by what is given in it."""
    heats = {scale.name for scale in drill.heat.scales} if drill.heat else set()
    found = [
        (BLADES, drill.brief.blades),
        (PLACE, True),
        (STOP_WORD, bool(heats)),
        (NOISE, bool(heats.intersection(NOISE_SCALES))),
        (WORDS, "voice" in heats),
        (FORCE, bool(heats & HARD)),
        (STAKES, "stakes" in heats),
        (STOP, True),
    ]
    return [say(sentence) for sentence, holds in found if holds]
