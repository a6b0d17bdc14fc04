"""Would it hold against a stranger: the first cues with a coach, a hand or a place not met yet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from cueladder.evidence.strangers import FIRST, UNTOLD, Prediction, Seen, Setting, fit, predict
from cueladder.evidence.teaching import NEW, Teaches, candidates, changed, teaches_most, usual
from cueladder.evidence.words import cues, in_ten
from cueladder.rules.said import Said, joined, later, say

from .claim import Claim, Told, told

FIRST_CUES = Claim(
    "stranger.first", "fencer", "range",
    says="Of the first five cues with a coach (hand, place) not met yet, likely 3 to 5 right",
    needs="10 cues in each of two settings at the rung and 40 in all; with two coaches, or in two "
    "places, for a coach or place not met",
    promise=0.80,
    true="settings that differ by .4, .7 and 1 (standard deviation of the log odds), of coach, "
    "hand and place each",
)  # fmt: skip
OPEN = Claim(
    "stranger.open", "fencer", "open",
    says="Whether it would hold with another coach cannot be told: it takes two who have tried",
    needs="any",
)  # fmt: skip
TEACHES = Claim(
    "stranger.teaches", "fencer", "count",
    says="A lesson with another coach would teach most about that",
    needs="as the range: the largest expected fall of the variance, worked out from the model",
)  # fmt: skip
CLAIMS = (FIRST_CUES, OPEN, TEACHES)

ASKED = 0.8
LEAST_EACH, LEAST_ALL = 10, 40

PREDICTED = {
    "coach": later(
        "Of the first %(n)s cues with a coach not met yet, likely %(range)s (%(often)s)."
    ),
    "hand": later("Of the first %(n)s cues from the other hand, likely %(range)s (%(often)s)."),
    "place": later("Of the first %(n)s cues in a place not met yet, likely %(range)s (%(often)s)."),
}
UNKNOWN = {
    "coach": later("Whether it would hold with another coach cannot be told yet."),
    "hand": later("Whether it would hold against the other hand cannot be told yet."),
    "place": later("Whether it would hold in another place cannot be told yet."),
}
WANTING = {
    "coach": later("It takes two coaches with %(each)s each, and %(all)s in all."),
    "hand": later("It takes two settings with %(each)s each, and %(all)s in all."),
    "place": later("It takes two places with %(each)s each, and %(all)s in all."),
}
LESSON = {
    "coach": later("A lesson with %(name)s would teach most about that."),
    "hand": later("A lesson from the other hand would teach most about that."),
    "place": later("A lesson in this place would teach most about that: %(name)s."),
}
NEWCOMER = {
    "coach": later("A lesson with a coach not met yet would teach most about that."),
    "place": later("A lesson in a place not met yet would teach most about that."),
}


def stranger(seen: Sequence[Seen], kind: str) -> tuple[Told, Prediction | None]:
    """The first cues where coach, hand or place (``kind``) is one not met yet, all else as usual.

    Args:
        seen: cues by setting, all at the rung it is asked about, lately.
        kind: ``coach``, ``hand`` or ``place``.

    Raises:
        ValueError: bad counts, a setting that is not whole, or an unknown kind.
    """
    if not _enough(seen, kind):
        wanting = say(WANTING[kind], each=cues(LEAST_EACH), all=cues(LEAST_ALL))
        return told(OPEN, joined([say(UNKNOWN[kind]), wanting])), None
    found = predict(fit(seen), changed(usual(seen), kind, None))
    low, high, chance = found.first(ASKED)
    words = say(PREDICTED[kind], n=FIRST, range=_range(low, high), often=in_ten(chance))
    return told(FIRST_CUES, words), found


def teaches(
    seen: Sequence[Seen], kind: str, names: Mapping[str, str]
) -> tuple[Told, list[Teaches]] | None:
    """The setting that would teach most about a stranger; None where that cannot be told.

    Args:
        seen, kind: as for `stranger`, and the same errors.
        names: of coaches and places as they are called, by what `seen` calls them.
    """
    if not _enough(seen, kind):
        return None
    base = usual(seen)
    ranked = teaches_most(seen, changed(base, kind, None), candidates(seen))
    return told(TEACHES, _lesson(ranked[0].setting, base, names)), ranked


def _enough(seen: Sequence[Seen], kind: str) -> bool:
    """Whether two of the kind were tried often enough.

    Of hands there are only two: two settings of any kind do, and the usual hand has to be known.
    """
    if kind not in PREDICTED:
        raise ValueError(f"kind: choose one of {', '.join(PREDICTED)}, not {kind!r}")
    if kind == "hand" and seen and usual(seen).hand == UNTOLD:
        return False
    totals: dict[object, int] = {}
    for each in seen:
        what = each.setting if kind == "hand" else getattr(each.setting, kind)
        totals[what] = totals.get(what, 0) + each.cues
    tried = sum(n >= LEAST_EACH for what, n in totals.items() if what != UNTOLD)
    return tried >= 2 and sum(totals.values()) >= LEAST_ALL


def _range(low: int, high: int) -> Said:
    if low == high:
        return say("%(n)s right", n=low)
    return say("%(low)s to %(high)s right", low=low, high=high)


def _lesson(best: Setting, base: Setting, names: Mapping[str, str]) -> Said:
    for kind, words in LESSON.items():
        name = getattr(best, kind)
        if name != getattr(base, kind):
            return say(NEWCOMER[kind]) if name == NEW else say(words, name=names.get(name, name))
    return say("More cues in the usual setting would teach most about that.")
