"""Plots of a fencer's story; series differ by shape, not only by colour."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from functools import lru_cache
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from ..evidence.guards import LEAST_TRIALS
from ..evidence.season import between
from ..language import speaker_of
from ..rules.said import Speaker, say, tell
from .plots import TONES, Tone, day_axis, frame, rungs_over_time, svg_of

WIDE, TALL = 3.4, 1.75
BOX = (0.11, 0.24, 0.85, 0.6)


def draw(name: str, figures: dict[str, Any], tone: str = "light", language: str = "en") -> bytes:
    """Draw a plot by name (cached by its figures).

    Args:
        name: one of `DRAWN`.
        figures: its data, with texts already in the reader's language.
        tone: ``light`` or ``dark``.
        language: of the reader.

    Returns:
        An SVG document.
    """
    return _draw(name, json.dumps(figures), tone, language)


@lru_cache(maxsize=256)
def _draw(name: str, figures: str, tone: str, language: str) -> bytes:
    return DRAWN[name](json.loads(figures), tone, speaker_of(language))


def reach(figures: dict[str, Any], tone: str, speaker: Speaker) -> bytes:
    """Share right on each rung with its interval, and how far the answers hold.

    Args:
        figures: ``ladders``: for each ``{name, reach}`` as from `story.answers.reach`.
        tone: ``light`` or ``dark``.
        speaker: of the reader's language.
    """
    colours, ladders = TONES[tone], figures["ladders"]
    figure = Figure(figsize=(WIDE, TALL))
    for k, ladder in enumerate(ladders):
        left, bottom, width, height = BOX
        each = (width - 0.11 * (len(ladders) - 1)) / len(ladders)
        axis = figure.add_axes((left + k * (each + 0.11), bottom, each, height))
        title = say("right in 10")
        if len(ladders) > 1:
            title = say("%(ladder)s, in 10", ladder=speaker.text(ladder["name"]))
        _start(axis, colours, tell(title, speaker))
        found = ladder["reach"]
        rungs = np.arange(1, len(found["by_rung"]) + 1)
        axis.axhline(
            10 * found["target"], color=colours.quiet, linewidth=0.8, linestyle=(0, (1, 2))
        )
        if found["trials"] >= LEAST_TRIALS:
            ends = [found["low"] + 0.5, found["high"] + 1.5]
            axis.axvspan(*ends, color=colours.faint, alpha=0.55, linewidth=0)
            axis.axvline(found["position"] + 1, color=colours.second, linestyle=(0, (4, 2)))
        for rung, (right, cues) in zip(rungs, found["by_rung"], strict=True):
            if cues == 0:
                continue
            low, high = between(right, cues)
            few = cues < LEAST_TRIALS
            _bar(axis, colours, rung, 10 * low, 10 * right / cues, 10 * high, hollow=few)
        axis.set_ylim(0, 10.6)
        axis.set_yticks([0, 5, 10])
        axis.set_xlim(0.4, len(rungs) + 0.6)
        step = 2 if len(rungs) > 6 and len(ladders) > 1 else 1
        axis.set_xticks(rungs[::step])
        axis.set_xlabel(tell(say("rung"), speaker), labelpad=1)
    return svg_of(figure, tell(say("Right answers on each rung"), speaker), figures["words"])


def apart(figures: dict[str, Any], tone: str, speaker: Speaker) -> bytes:
    """d′ with its interval as filled circles, c as open squares, lesson by lesson."""
    colours, rows = TONES[tone], figures["rows"]
    figure, axis = _one(colours, tell(say("d′ (filled) and c (open)"), speaker))
    axis.axhline(0, color=colours.quiet, linewidth=0.8, linestyle=(0, (1, 2)))
    days = _ordinals(rows)
    for day, row in zip(days, rows, strict=True):
        _bar(axis, colours, day, row["low"], row["value"], row["high"])
    _open(axis, colours, days, [row["c"] for row in rows], "s")
    day_axis(axis, days, 4, speaker)
    return svg_of(figure, tell(say("Answer or leave, lesson by lesson"), speaker), figures["words"])


def heat(figures: dict[str, Any], tone: str, speaker: Speaker) -> bytes:
    """Loud minus soft, right in ten, with its interval, lesson by lesson."""
    colours, rows = TONES[tone], figures["rows"]
    figure, axis = _one(colours, tell(say("loud minus soft, right in 10"), speaker))
    axis.axhline(0, color=colours.quiet, linewidth=0.8, linestyle=(0, (1, 2)))
    days = _ordinals(rows)
    for day, row in zip(days, rows, strict=True):
        _bar(axis, colours, day, 10 * row["low"], 10 * row["value"], 10 * row["high"])
    low, high = axis.get_ylim()
    axis.set_ylim(min(low, -2), max(high, 2))
    day_axis(axis, days, 4, speaker)
    return svg_of(
        figure, tell(say("Loud against soft, lesson by lesson"), speaker), figures["words"]
    )


def pace(figures: dict[str, Any], tone: str, speaker: Speaker) -> bytes:
    """Seconds a cue by lesson: median and interquartile range."""
    colours, rows = TONES[tone], figures["rows"]
    figure, axis = _one(colours, tell(say("seconds a cue, middle half"), speaker))
    days = _ordinals(rows)
    for day, row in zip(days, rows, strict=True):
        _bar(axis, colours, day, row["low"], row["value"], row["high"])
    axis.set_ylim(bottom=0)
    day_axis(axis, days, 4, speaker)
    return svg_of(figure, tell(say("Pace, lesson by lesson"), speaker), figures["words"])


def comfort(figures: dict[str, Any], tone: str, speaker: Speaker) -> bytes:
    """Comfort before as wide open circles, after as filled squares, joined for each lesson."""
    colours, rows = TONES[tone], figures["rows"]
    figure, axis = _one(colours, tell(say("before (open) and after (filled)"), speaker))
    days = _ordinals(rows)
    for day, row in zip(days, rows, strict=True):
        if None not in (row["before"], row["after"]):
            axis.plot([day, day], [row["before"], row["after"]], color=colours.quiet, linewidth=1.1)
    before = [(day, row["before"]) for day, row in zip(days, rows, strict=True)]
    after = [(day, row["after"]) for day, row in zip(days, rows, strict=True)]
    _open(axis, colours, *_said(before), "o", 7.0)
    axis.plot(*_said(after), "s", color=colours.first, markersize=4.2, clip_on=False, zorder=4)
    axis.set_ylim(0, 10.4)
    axis.set_yticks([0, 5, 10])
    day_axis(axis, days, 4, speaker)
    return svg_of(figure, tell(say("Comfort before and after"), speaker), figures["words"])


DRAWN: dict[str, Callable[[dict[str, Any], str, Speaker], bytes]] = {
    "course": rungs_over_time,
    "reach": reach,
    "apart": apart,
    "heat": heat,
    "pace": pace,
    "comfort": comfort,
}


def _said(some: list[tuple[int, int | None]]) -> tuple[list[int], list[float]]:
    kept = [(day, value) for day, value in some if value is not None]
    return [day for day, _ in kept], [float(value) for _, value in kept]


def _one(colours: Tone, title: str) -> tuple[Figure, Axes]:
    figure = Figure(figsize=(WIDE, TALL))
    axis = figure.add_axes(BOX)
    _start(axis, colours, title)
    return figure, axis


def _start(axis: Axes, colours: Tone, title: str) -> None:
    frame(axis, colours)
    axis.set_title(title, loc="left", color=colours.quiet, fontsize=8.5, pad=4)
    axis.grid(axis="y", color=colours.faint, linewidth=0.6)
    axis.set_axisbelow(True)


def _ordinals(rows: list[dict[str, Any]]) -> list[int]:
    return [date.fromisoformat(row["day"]).toordinal() for row in rows]


def _bar(
    axis: Axes,
    colours: Tone,
    x: float,
    low: float,
    value: float,
    high: float,
    *,
    hollow: bool = False,
) -> None:
    """A value with its error bar."""
    axis.plot([x, x], [low, high], color=colours.first, linewidth=1.4, solid_capstyle="butt")
    axis.plot(
        [x],
        [value],
        "o",
        markersize=4.6,
        markerfacecolor=colours.ground if hollow else colours.first,
        markeredgecolor=colours.first,
        markeredgewidth=1.3,
        clip_on=False,
        zorder=4,
    )


def _open(
    axis: Axes, colours: Tone, x: list[int], y: list[float], marker: str, size: float = 4.6
) -> None:
    axis.plot(
        x,
        y,
        marker,
        markersize=size,
        markerfacecolor=colours.ground,
        markeredgecolor=colours.second,
        markeredgewidth=1.3,
        clip_on=False,
        zorder=3,
    )
