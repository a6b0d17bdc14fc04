"""Plots of a fencer's story, as a reader sees them: rendered by Chromium against kept pictures.

The kept pictures (`baseline/`) are in grey, so what they show can be told without colour. At most
FEW of some 60,000 points may differ by more than CLEARLY of 255 levels: enough for another
version's soft edges, too few for a figure that has moved (which a test below makes sure of).
To keep new ones: KEEP_PLOTS=1 pytest tests/pages/test_story_plots.py, and look at each.
"""

from __future__ import annotations

import copy
import io
import os
import xml.etree.ElementTree as ET
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from cueladder.pages import plots, story_plots

BASELINE = Path(__file__).parent / "baseline"
FEW, CLEARLY = 40, 64
GROUNDS = {"light": "#fffdf8", "dark": "#18262e"}

DAYS = ["2026-09-07", "2026-09-21", "2026-10-05", "2026-10-26", "2026-11-16"]


def ranged(values, half, **more):
    return [
        {
            "day": day,
            "value": v,
            "low": v - half,
            "high": v + half,
            **{k: s[i] for k, s in more.items()},
        }
        for i, (day, v) in enumerate(zip(DAYS, values, strict=True))
    ]


def reach_of(by_rung, position, low, high):
    return {
        "by_rung": by_rung, "position": position, "low": low, "high": high, "target": 0.8,
        "trials": sum(n for _, n in by_rung),
    }  # fmt: skip


FIGURES = {
    "course": {
        "lessons": [
            {"day": day, "read": k, "status": status}
            for k, (day, status) in enumerate(
                zip(DAYS, [None, "working", "secure", "working", "secure"], strict=True)
            )
        ],
        "ladders": {"read": ("Reading the cue", list("abcdef"))},
        "words": "In 5 lessons: 4 rungs further up.",
    },
    "reach": {
        "ladders": [
            {
                "name": "Reading the cue",
                "reach": reach_of([[30, 32], [25, 30], [14, 22], [2, 6], [0, 0]], 1.7, 1, 2),
            },
            {"name": "Staying calm", "reach": reach_of([[20, 20], [9, 14], [0, 0]], 0.6, 0, 1)},
        ],
        "words": "Reads cues up to the wrist.",
    },
    "apart": {
        "rows": ranged([0.6, 1.2, 1.1, 1.9, 2.4], 0.8, c=[-0.4, -0.1, 0.2, 0.1, 0.0]),
        "words": "Told apart better in the last lesson than in the first of these.",
    },
    "heat": {
        "rows": ranged([-0.3, -0.25, -0.1, -0.05, 0.02], 0.2),
        "words": "Loud cues cost less in the last lesson.",
    },
    "pace": {"rows": ranged([12, 11, 10.5, 10, 9.5], 1.5), "words": "About 10 seconds a cue."},
    "comfort": {
        "rows": [
            {"day": day, "before": before, "after": after}
            for day, before, after in zip(DAYS, [4, 5, 5, None, 6], [6, 5, 7, 8, None], strict=True)
        ],
        "words": "More comfortable after than before in 2.",
    },
}  # fmt: skip


@pytest.fixture(scope="module")
def paper(chrome):
    """An empty page of a plot's size."""
    page = chrome.new_page(viewport={"width": 340, "height": 176})
    yield page
    page.close()


def seen(page, svg, tone="light"):
    """The plot in grey, as an array of levels."""
    body = svg.decode().split("?>", 1)[1].split(">", 1)[1]
    page.set_content(
        f"<body style='margin:0;background:{GROUNDS[tone]}'><style>svg{{width:340px;height:auto}}"
        f"</style>{body}"
    )
    shot = page.screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("L")).astype(int)


def differing(one, other):
    return int((np.abs(one - other) > CLEARLY).sum())


@pytest.mark.browser
@pytest.mark.parametrize("tone", GROUNDS)
@pytest.mark.parametrize("name", FIGURES)
def test_a_plot_looks_as_it_did_when_it_was_looked_at(paper, name, tone):
    now = seen(paper, story_plots.draw(name, FIGURES[name], tone), tone)
    path = BASELINE / f"{name}-{tone}.png"
    if os.environ.get("KEEP_PLOTS"):
        BASELINE.mkdir(exist_ok=True)
        Image.fromarray(now.astype(np.uint8)).quantize(16).save(path, optimize=True)
    kept = np.asarray(Image.open(path).convert("L")).astype(int)
    assert kept.shape == now.shape
    assert differing(kept, now) <= FEW, f"{name} on a {tone} page has changed: look at it"


@pytest.mark.browser
@pytest.mark.parametrize("name", ["apart", "heat", "pace"])
def test_the_comparison_would_see_one_figure_moved(paper, name):
    moved = copy.deepcopy(FIGURES[name])
    row = moved["rows"][2]
    step = (max(r["high"] for r in moved["rows"]) - min(r["low"] for r in moved["rows"])) / 8
    row["value"] += step
    before, after = (
        seen(paper, story_plots.draw(name, figures)) for figures in (FIGURES[name], moved)
    )
    assert differing(before, after) > FEW


@pytest.mark.parametrize("name", FIGURES)
def test_a_plot_carries_a_title_and_its_sentence(name):
    root = ET.fromstring(story_plots.draw(name, FIGURES[name]))
    space = root.tag.removesuffix("svg")
    assert root.attrib["role"] == "img"
    named = root.attrib["aria-labelledby"].split()
    texts = {root.find(f"{space}{tag}").attrib["id"]: tag for tag in ("title", "desc")}
    assert [texts[each] for each in named] == ["title", "desc"]
    assert root.find(f"{space}desc").text == FIGURES[name]["words"]


def test_words_cannot_break_out_of_the_picture():
    svg = story_plots.draw("pace", {**FIGURES["pace"], "words": "<script>&"})
    assert b"<script>" not in svg and b"&lt;script&gt;&amp;" in svg


def luminance(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return float(np.dot(linear, [0.2126, 0.7152, 0.0722]))


@pytest.mark.parametrize("tone", GROUNDS)
def test_every_colour_that_carries_a_figure_stands_out_from_its_page(tone):
    # WCAG 2.2: 3 to 1 for graphics (1.4.11), 4.5 to 1 for text (1.4.3)
    colours = plots.TONES[tone]
    page = luminance(GROUNDS[tone])
    for name, least in (("first", 3), ("second", 3), ("ink", 4.5), ("quiet", 4.5)):
        light, dark = sorted((luminance(getattr(colours, name)), page), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= least, name
