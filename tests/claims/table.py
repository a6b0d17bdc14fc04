"""The table in plain text, and as the page of the guide."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from cueladder.evidence.claims import REGISTER
from cueladder.pages.guide import FOLDER

from .line import Line

PAGE: Path = FOLDER / "claims.md"
SIDES = {"false": "said though false", "true": "said, and true", "holds": "holds"}
KINDS = {
    "finding": "Something is so, and could be false",
    "range": "Between two ends",
    "open": "The cues do not tell",
    "count": "What was marked, or what a rule says",
}
HEAD = """# What may be said, and how often it is wrong

Every sentence about a fencer, a drill, a club or a coach stands in one list, with the cues it needs
before it may be said. Nothing else in the program says such a thing. Each has been tried on made-up
fencers whose truth is known, for whole seasons, looked at twenty times: who looks twenty times at
luck finds something once.

- **A finding** ("calm with soft cues, not yet with loud ones") is said wrongly in at most 5 seasons
  of 100, of a fencer of whom it is not true. Where it is true it may still be missed: the table
  says how many cues it takes to be found 8 times in 10.
- **A range** ("6 to 9 times in 10") holds at *all* looks of a season as often as it says.
- **What is foretold** (lessons to go, cues to the next rung, the first cues with a stranger) holds
  as often as it says at any one look, not at all of them together.
- **"Cannot yet be told"** claims nothing. Early in a season most of what can be said is of that
  kind.
- **A count** ("3 clean cues then, 46 in all") is what was marked, and no conclusion.

The fencers are invented: steady ones, ones who learn, ones who stop learning, ones led up and down
by the drill's rule. Real ones differ in ways nobody has thought of. Cues of one lesson are more
alike than these; the true error is somewhat larger.

What is not promised: "if the pace lasts" is no promise to who slows. Standing (working, secure) is
what the drill's rule found; how often a rule errs is on the page of rules.
"""


def text(lines: Sequence[Line]) -> str:
    """The table for a terminal."""
    out = []
    for line in lines:
        mark = "ok " if line.kept() else "NOT"
        out.append(
            f"{mark} {line.asked.claim:17} {SIDES[line.asked.side]:17} {line.limit:12} "
            f"{line.asked.truth:52} {_cells(line)}"
        )
    return "\n".join(out)


def page(lines: Sequence[Line], seed: int, seasons: float) -> str:
    """The page of the guide, in Markdown."""
    out = [HEAD]
    for kind, name in KINDS.items():
        out.append(f"## {name}\n")
        for claim in REGISTER.values():
            if claim.kind != kind:
                continue
            promise = {
                "finding": f" Wrong in at most {100 * (claim.promise or 0):.0f} seasons of 100.",
                "range": f" Holds in at least {100 * (claim.promise or 0):.0f} seasons of 100.",
            }.get(kind, "")
            says = claim.says + _stop(claim.says)
            out.append(f"**{says}** Needs {claim.needs}.{promise} (`{claim.name}`)\n")
            mine = [line for line in lines if line.asked.claim == claim.name]
            if mine:
                out.append(
                    f"| tried on | what is counted | in 100 seasons, by {mine[0].asked.by} |\n"
                    "|---|---|---|"
                )
                out += [
                    f"| {line.asked.truth} | {SIDES[line.asked.side]} | {_cells(line)} |"
                    for line in mine
                ]
                out.append("")
    out.append(
        f"Made by `make claims` on seed {seed}; bounds were chosen on another seed. Each figure "
        f"rests on {'' if seasons == 1 else f'{seasons:g} times '}20 to 1000 seasons, so it may be "
        "off by a few points.\n"
    )
    return "\n".join(out)


def _cells(line: Line) -> str:
    return ", ".join(
        f"{cues}: {'–' if share is None else f'{100 * share:.0f}'}"
        for cues, share in zip(line.asked.cues, line.shares, strict=True)
    )


def _stop(sentence: str) -> str:
    return "" if sentence.endswith(("?", "…")) else "."
