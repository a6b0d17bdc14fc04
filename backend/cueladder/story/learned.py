"""What a club's own lessons teach, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..evidence.claims import Told, said
from ..evidence.claims import learn as claims
from ..evidence.learning.compare import Served, quicker
from ..evidence.learning.told import UNSOUND
from ..rules import Kind
from ..rules.said import Said, joined, later, say, say_n, say_number

FIGURES = ("gain", "loss", "fresh", "lapse", "people")
TITLES = {
    Kind.SENSITIZATION: later("Reading drills"),
    Kind.DESENSITIZATION: later("Intensity drills"),
    Kind.DISCRIMINATION: later("Mixed drills"),
}


def told(one: Mapping[str, Any]) -> dict[str, Any]:
    """One kind of drill in words, beside its figures.

    Args:
        one: figures from `evidence.learning.whole`.
    """
    known, settings, lost = one["known"], one["settings"], one["lost"]
    return {
        "kind": one["kind"],
        "title": say(TITLES[Kind(one["kind"])]),
        "seen": _seen(one),
        "figures": [said(claims.figure(name, known[name])) for name in FIGURES] if known else [],
        "settings": [
            {"name": name, "now": name == one["now"], **served, **said(claims.served(name, served))}
            for name, served in (settings or {}).items()
        ],
        "did": {**one["did"], **said(claims.did(one["did"]))} if one["did"] else None,
        "setting": said(_setting(one["suggested"], one["now"], settings)) if settings else None,
        "suggested": one["suggested"],
        "checks": [
            {
                "begun": begun,
                "held": held,
                **said(claims.held(k, begun, held, lost[k] if lost and k < len(lost) else None)),
            }
            for k, (begun, held) in enumerate(one["checks"])
        ],
        "breaks": said(claims.rows(one["breaks"], one["new_breaks"])) if lost else None,
        "new_breaks": one["new_breaks"],
        "plots": bool(one["beside"]),
    }


def _setting(suggested: str | None, now: str, settings: Mapping[str, Any]) -> Told:
    if suggested is None:
        return claims.setting(None, now)
    new, old = (Served(**settings[name]) for name in (suggested, now))
    return claims.setting(suggested, now, quicker(new, old))


def _seen(one: Mapping[str, Any]) -> Said:
    counted = say_n(
        "%(marks)s marks of %(n)s fencer, in %(lessons)s lessons of a drill.",
        "%(marks)s marks of %(n)s fencers, in %(lessons)s lessons of a drill.",
        one["fencers"],
        marks=say_number(one["marks"]),
        lessons=say_number(one["lessons"]),
    )
    if one["known"] is None:
        few = say("Too few to say anything: it takes at least 300 marks of 3 fencers.")
        return joined([counted, few])
    if one["sound"] < UNSOUND:
        return joined([counted, claims.unsound().words])
    return counted


def lines(figures: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    """All of it as plain English lines, for the command line."""
    if not figures:
        yield "No lesson has been marked yet."
    for one in map(told, figures):
        yield f"{one['title']}: {one['seen']}"
        for each in (*one["figures"], *one["settings"], one["did"], one["setting"],
                     *one["checks"], one["breaks"]):  # fmt: skip
            if each is not None:
                yield f"  {each['words']}"
        yield ""
