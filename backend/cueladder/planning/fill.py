"""Allocation of a lesson's minutes to blocks."""

from __future__ import annotations

from collections.abc import Sequence

from .block import Block, check_block, cut_block, sure_block, total, work_block
from .choice import Choice, choose, days, turn, turn_after
from .outlook import Outlook
from .skill import skills

# Our own limits: share of a lesson for re-checks beside a main drill, fewest cues to begin a main
# drill, most decisions planned for one drill.
CHECK_SHARE = 0.4
LEAST_CUES = 5
MOST_DECISIONS = 3
GRAIN = 1e-9


def fill(minutes: float, everything: Sequence[Outlook]) -> tuple[Block, ...]:
    """Blocks for a lesson, together no longer than its minutes.

    A sure success and the main drill come first, then re-checks that are due, then a second
    drill, then more decisions on both. Main and second drill bring their re-checks along; the main
    drill's comes last, next to its work. What can decide nothing any more is not worked: a drill
    whose top is met.

    Args:
        minutes: length of the lesson.
        everything: the drills there are, at least one.
    """
    able = [o for o in everything if o.walk.phase != "close" and not o.decided]
    ranked = choose(able, everything, turn(everything))
    closing = sure_block(_surest(everything, ranked))
    if closing.minutes > minutes:
        return ()
    room = minutes - closing.minutes
    main = next((c for c in ranked if _begun(c.outlook) <= room), None)
    checks = _checks(everything, main, room, minutes)
    work = []
    if main:
        left = room - total(checks) + GRAIN
        whole = work_block("main", main, 1)
        work.append(whole if whole.minutes <= left else cut_block("main", main, left))
        rest = choose(
            [c.outlook for c in ranked if c is not main],
            everything,
            turn_after(main.outlook.standing.kind, [c.outlook for c in ranked]),
        )
        chosen = [main]
        for choice in rest:
            opening = _missing(choice.outlook, checks)
            block = work_block("second", choice, 1)
            if total([*checks, *opening, *work, block]) <= room + GRAIN:
                checks = [*checks[:-1], *opening, *checks[-1:]]
                work.append(block)
                chosen.append(choice)
                break
        work = _more(chosen, work, room - total(checks))
    return (*checks, *work, closing)


def _begun(outlook: Outlook) -> float:
    """Minimum minutes to open a drill as the main one."""
    opening = check_block(outlook)
    return (opening.minutes if opening else 0) + LEAST_CUES * outlook.seconds / 60


def _checks(
    everything: Sequence[Outlook], main: Choice | None, room: float, minutes: float
) -> list[Block]:
    """Re-checks: those due, longest waiting first, as many as fit, then the main drill's."""
    own = check_block(main.outlook) if main else None
    last = [own] if own else []
    if main:
        work = LEAST_CUES * main.outlook.seconds / 60
        room = min(room - work, max(CHECK_SHARE * minutes, total(last)))
    waiting = sorted(everything, key=lambda o: (-(days(o) or 0), o.standing.drill))
    found: list[Block] = []
    for outlook in waiting:
        block = check_block(outlook)
        if block is None or (main and outlook is main.outlook):
            continue
        if total([*found, block, *last]) <= room + GRAIN:
            found.append(block)
    return [*found, *last]


def _missing(outlook: Outlook, checks: Sequence[Block]) -> list[Block]:
    """The re-check a drill opens with, if it is not among those planned."""
    block = check_block(outlook)
    planned = {b.drill for b in checks}
    return [block] if block and outlook.standing.drill not in planned else []


def _more(chosen: Sequence[Choice], work: list[Block], room: float) -> list[Block]:
    """Add decisions while there is time, first on the main drill, then on the second."""
    for i, choice in enumerate(chosen):
        while not work[i].cut and work[i].decisions < MOST_DECISIONS:
            longer = work_block(work[i].role, choice, work[i].decisions + 1)
            tried = [*work[:i], longer, *work[i + 1 :]]
            if longer.minutes <= work[i].minutes or total(tried) > room + GRAIN:
                break
            work = tried
    return work


def _surest(everything: Sequence[Outlook], ranked: Sequence[Choice]) -> Outlook:
    """The drill to end on: one with a secure rung, else a met one, else the surest answers.

    Drills after a break so long that they start lower are left out, unless there is no other.
    """
    worked = [
        o
        for o in everything
        if o.standing.walk.day is not None and (o.walk.check is None or o.walk.check[0] == 0)
    ]

    def order(outlook: Outlook) -> tuple[bool, bool, float, str]:
        walk = outlook.walk
        right = min(skill.mean for skill in skills(outlook.standing, outlook.sure))
        return (walk.secure is None, walk.met is None, -right, outlook.standing.drill)

    if not worked:
        return ranked[0].outlook if ranked else everything[0]
    return min(worked, key=order)
