"""Plots as SVG, reproducible byte by byte."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape
from threading import Lock
from typing import Any

import matplotlib
import numpy as np
from matplotlib.axes import Axes
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure

from ..rules import Rule
from ..rules.said import English, Speaker, later, say, tell
from ..story.rule_odds import curve

matplotlib.rcParams.update(
    {
        "svg.hashsalt": "cue ladder",
        "svg.fonttype": "path",
        "font.family": ["DejaVu Sans"],
        "font.size": 8.5,
        "axes.spines.top": False,
        "axes.spines.right": False,
    }
)
ENGLISH = English()
# matplotlib's text layout uses caches that are not thread-safe.
_DRAWING = Lock()


@dataclass(frozen=True)
class Tone:
    """Colours for a light or a dark page, distinguishable in greyscale."""

    ink: str
    quiet: str
    faint: str
    first: str
    second: str
    ground: str


TONES = {
    "light": Tone("#22252e", "#5d6270", "#d9d5cc", "#33407f", "#a8521f", "#ffffff"),
    "dark": Tone("#eceae4", "#a9adba", "#3d4150", "#a9b8ff", "#f2a873", "#20232c"),
}
SHAPES = {
    "secure": {"marker": "s", "size": 5.0, "filled": True},
    "working": {"marker": "o", "size": 5.5, "filled": False},
    None: {"marker": "x", "size": 4.5, "filled": True},
}
SAID = {"secure": later("secure"), "working": later("done once"), None: later("none done")}
# In inches.
WIDE, TALL = 3.1, 1.55
RATES = tuple(float(p) for p in np.round(np.linspace(0.5, 1.0, 51), 2))


def rungs_over_time(
    course: dict[str, Any], tone: str = "light", speaker: Speaker = ENGLISH
) -> bytes:
    """Rungs met, as steps, one panel a ladder; secure is a square, working an open circle.

    Args:
        course: from `story.course`, with ``ladders``: family → (name, labels).
        tone: ``light`` or ``dark``.
        speaker: of the reader's language.

    Returns:
        An SVG document.
    """
    return svg_of(
        steps(course, tone, speaker),
        tell(say("Rungs over time"), speaker),
        tell(course.get("words", ""), speaker),
    )


def steps(course: dict[str, Any], tone: str, speaker: Speaker) -> Figure:
    """What `rungs_over_time` draws."""
    colours = TONES[tone]
    lessons, ladders = course["lessons"], course["ladders"]
    days = [date.fromisoformat(each["day"]).toordinal() for each in lessons]
    figure = Figure(figsize=(WIDE, TALL))
    for k, (family, (name, labels)) in enumerate(ladders.items()):
        rungs, met = len(labels), [each[family] for each in lessons]
        axis = figure.add_axes(_box(k, len(ladders)))
        frame(axis, colours)
        title = name if len(ladders) > 1 else say("Rung done")
        axis.set_title(tell(title, speaker), loc="left", color=colours.quiet, fontsize=8.5, pad=4)
        axis.step(days, met, where="post", color=colours.quiet, linewidth=1.2, zorder=2)
        for status, shape in SHAPES.items():
            here = [i for i, each in enumerate(lessons) if each["status"] == status]
            colour = colours.first if status == "secure" else colours.second
            axis.plot(
                [days[i] for i in here],
                [met[i] for i in here],
                shape["marker"],
                markersize=shape["size"],
                markerfacecolor=colour if shape["filled"] else colours.ground,
                markeredgecolor=colour,
                markeredgewidth=1.4,
                label=speaker.text(SAID[status]) if here else "_",
                zorder=3,
                clip_on=False,
            )
        axis.set_ylim(-0.5, rungs + 0.5)
        axis.set_yticks(range(0, rungs + 1, 2 if rungs > 5 else 1))
        axis.grid(axis="y", color=colours.faint, linewidth=0.6)
        day_axis(axis, days, 2 if len(ladders) > 1 else 4, speaker)
    handles, said = figure.axes[0].get_legend_handles_labels()
    figure.legend(
        handles,
        said,
        loc="lower left",
        bbox_to_anchor=(0.0, -0.02),
        ncols=3,
        frameon=False,
        labelcolor=colours.ink,
        fontsize=7.5,
        handletextpad=0.0,
        columnspacing=0.6,
    )
    return figure


def _box(k: int, panels: int) -> tuple[float, float, float, float]:
    """Position of a panel: one wide, or two side by side."""
    left, gap, right = 0.12, 0.15, 0.07
    width = (1 - left - right - gap * (panels - 1)) / panels
    return (left + k * (width + gap), 0.27, width, 0.59)


def rule_curves(
    rule: Rule,
    default: Rule,
    tone: str = "light",
    *,
    tall: bool = False,
    speaker: Speaker = ENGLISH,
) -> bytes:
    """Chance of a climb and expected cues against true skill, for a rule and the default.

    Args:
        rule, default: the rules; the default is drawn dashed.
        tone: ``light`` or ``dark``.
        tall: stack the panels, for a narrow screen.
        speaker: of the reader's language.

    Returns:
        An SVG document.

    Raises:
        RuleError: the rule's table would be too large.
    """
    colours = TONES[tone]
    figure = Figure(figsize=(3.4, 5.2) if tall else (6.4, 2.9), layout="constrained")
    left, right = figure.subplots(2, 1) if tall else figure.subplots(1, 2)
    for axis in (left, right):
        frame(axis, colours)
        axis.set_xlim(5, 10)
        axis.set_xlabel(tell(say("how often the fencer is truly right, in 10"), speaker))
        axis.grid(color=colours.faint, linewidth=0.7)
        axis.axvspan(5, 8, color=colours.faint, alpha=0.45, linewidth=0)
    titles = {"loc": "left", "fontsize": 9, "color": colours.ink}
    left.set_title(tell(say("sent up, times in 100"), speaker), **titles)
    right.set_title(tell(say("cues to a decision"), speaker), **titles)
    left.set_ylim(0, 100)
    for name, each, colour, dash, width in (
        (say("the usual rule"), default, colours.second, (0, (5, 2)), 1.6),
        (say("this rule"), rule, colours.first, "solid", 2.4),
    ):
        odds = curve(each, RATES)
        x = [10 * p for p in RATES]
        style = {"color": colour, "linestyle": dash, "linewidth": width}
        style["label"] = tell(name, speaker)
        left.plot(x, [100 * one.climb for one in odds], **style)
        right.plot(x, [one.cues for one in odds], **style)
    right.set_ylim(bottom=0)
    left.text(
        5.1,
        96,
        tell(say("not yet\nreliable"), speaker),
        va="top",
        fontsize=8,
        color=colours.quiet,
        linespacing=1.1,
    )
    handles, labels = left.get_legend_handles_labels()
    figure.legend(
        handles[::-1],
        labels[::-1],
        loc="outside lower left",
        ncols=2,
        frameon=False,
        labelcolor=colours.ink,
    )
    said = say("Chance to be sent up and cues to a decision, this rule beside the usual one.")
    return svg_of(figure, tell(say("What the rule does"), speaker), tell(said, speaker))


def frame(axis: Axes, colours: Tone) -> None:
    """Style the axes in the page's colours."""
    axis.set_facecolor("none")
    axis.tick_params(colors=colours.quiet, labelcolor=colours.ink, length=3)
    axis.xaxis.label.set_color(colours.ink)
    for spine in axis.spines.values():
        spine.set_color(colours.quiet)


def day_axis(axis: Axes, days: Sequence[int], most: int, speaker: Speaker) -> None:
    """A few date ticks with first and last; with years where the dates span several."""
    first, last = days[0], days[-1]
    pad = max(1.0, (last - first) * 0.04)
    axis.set_xlim(first - pad, last + pad)
    ticks = sorted({round(first + (last - first) * k / (most - 1)) for k in range(most)})
    shown = [date.fromordinal(tick) for tick in ticks]
    years = len({day.year for day in shown}) > 1
    axis.set_xticks(
        ticks,
        [speaker.day(day, "tick") + (f"\n{day.year}" if years else "") for day in shown],
    )


def svg_of(figure: Figure, title: str, said: str) -> bytes:
    """The figure as SVG with an accessible title and description."""
    figure.patch.set_alpha(0)
    out = io.BytesIO()
    with _DRAWING:
        FigureCanvasSVG(figure).print_svg(
            out, metadata={"Date": None, "Creator": None, "Format": None, "Type": None}
        )
    head, rest = out.getvalue().split(b"<svg ", 1)
    tag, rest = rest.split(b">", 1)
    told = f"<title id='title'>{escape(title)}</title><desc id='said'>{escape(said)}</desc>"
    named = b"<svg role='img' aria-labelledby='title said' "
    return head + named + tag + b">" + told.encode() + rest
