"""Plots of what the club's lessons teach: the marks as points, the fit as a band."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

import numpy as np
from matplotlib.figure import Figure

from ..evidence.learning.predictive import LESSONS
from ..language import speaker_of
from ..rules.said import Said, later, say, tell
from .plots import TONES, frame, svg_of

WIDE, TALL = 3.4, 1.75
BOX = (0.11, 0.24, 0.85, 0.6)
AXES = {
    "rung": later("rung"), "gap": later("days away"), "lesson": later("lesson of the drill"),
}  # fmt: skip
TITLES = {
    "rung": later("Right answers on each rung"),
    "gap": later("Right answers by days away"),
    "lesson": later("Right answers by lesson"),
}


def draw(name: str, rows: list[dict[str, Any]], tone: str, language: str) -> bytes:
    """Share right of each group with the band in which the fit expects it 8 times in 10.

    Args:
        name: ``rung``, ``gap`` or ``lesson``.
        rows: of `predictive.Beside`, as data.
        tone: ``light`` or ``dark``.
        language: of the reader.

    Returns:
        An SVG document.
    """
    return _draw(name, json.dumps(rows), tone, language)


@lru_cache(maxsize=64)
def _draw(name: str, rows_json: str, tone: str, language: str) -> bytes:
    rows, colours, speaker = json.loads(rows_json), TONES[tone], speaker_of(language)
    figure = Figure(figsize=(WIDE, TALL))
    axis = figure.add_axes(BOX)
    frame(axis, colours)
    title = tell(say("right in 10: marks (points), fit (bars)"), speaker)
    axis.set_title(title, loc="left", color=colours.quiet, fontsize=8.5, pad=4)
    axis.grid(axis="y", color=colours.faint, linewidth=0.6)
    axis.set_axisbelow(True)
    at = np.arange(len(rows))
    low, high = (np.array([10 * row[end] for row in rows]) for end in ("low", "high"))
    # never thinner than can be seen
    low, high = np.minimum(low, high - 0.12), high
    axis.bar(at, high - low, bottom=low, width=0.7, color=colours.faint, zorder=2)
    right = [10 * row["right"] for row in rows]
    axis.plot(at, right, "o", markersize=4.6, color=colours.first, clip_on=False, zorder=4)
    axis.set_ylim(min(5.0, float(np.floor(low.min()))), 10.2)
    axis.set_xlim(-0.6, len(rows) - 0.4)
    axis.set_xticks(at, [tell(_label(name, row["group"]), speaker) for row in rows])
    axis.set_xlabel(tell(say(AXES[name]), speaker), labelpad=1)
    words = say("Points: what was marked. Bars: where the fit expects them 8 times in 10.")
    return svg_of(figure, tell(say(TITLES[name]), speaker), tell(words, speaker))


def _label(name: str, group: int) -> Said | str:
    if name == "rung":
        return str(group + 1)
    if name == "gap":
        return (say("first"), "≤ 10", "11–28", "29–90", "> 90")[group]
    ends = (0, *LESSONS)
    if group == len(LESSONS):
        return f"> {LESSONS[-1]}"
    first, last = ends[group] + 1, ends[group + 1]
    return str(last) if first == last else f"{first}–{last}"
