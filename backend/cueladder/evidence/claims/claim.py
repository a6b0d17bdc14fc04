"""What a claim is: a statement the product can make, what it rests on, how often it errs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from cueladder.rules.said import Said

About = Literal["fencer", "drill", "club", "coach"]
Kind = Literal["finding", "range", "open", "count"]


@dataclass(frozen=True)
class Claim:
    """One statement.

    Attributes:
        name: "reach.whole"; told beside the words, so that a reader can look it up.
        about: whom or what it is about.
        kind: ``finding``: something is so, and could be false. ``range``: somewhere between two
            ends. ``open``: the data do not tell, which itself claims nothing. ``count``: what was
            marked, or what a rule says; nothing is concluded from it.
        says: its words in short, in English, for the table of claims.
        needs: the data it may be said on, in English.
        promise: a finding: false in at most this share of seasons. A range: holds in at least this
            share of them. None where nothing is concluded.
        false, true: the truths it is tried on, in English: false by a margin, true by one.
        power: (cues, share): said in at least this share of seasons of so many cues where it is
            true by that margin; None where there is nothing to find.
    """

    name: str
    about: About
    kind: Kind
    says: str
    needs: str
    promise: float | None = None
    false: str = ""
    true: str = ""
    power: tuple[int, float] | None = None


@dataclass(frozen=True)
class Told:
    """A claim as it is said of someone.

    Attributes:
        claim: name of the claim.
        words: one or two plain sentences.
        acts: how much it asks for doing something, for the choice of the first thing said; 0 for
            what is only good to know.
    """

    claim: str
    words: Said
    acts: int = 0


def told(claim: Claim, words: Said, acts: int = 0) -> Told:
    """Say a claim."""
    return Told(claim.name, words, acts)


def said(one: Told) -> dict[str, Any]:
    """A told claim as data."""
    return {"claim": one.claim, "words": one.words}
