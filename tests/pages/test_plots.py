"""Plots: the same bytes for the same figures, and readable without colour."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text

from cueladder.language import LANGUAGES, speaker_of
from cueladder.pages import plots
from cueladder.rules import rule_from_json
from cueladder.rules.rule import DEFAULT

RUN = rule_from_json({"family": "run", "n": 10})


def course(*statuses, ladders=("read",)):
    lessons = [
        {"day": f"2026-03-{k + 1:02}", "status": status, **{name: k for name in ladders}}
        for k, status in enumerate(statuses)
    ]
    names = {"read": "Reading the cue", "heat": "Staying calm"}
    return {"lessons": lessons, "ladders": {n: (names[n], list("abcdef")) for n in ladders}}


def marker_shapes(svg):
    """The outlines of the markers, as drawn."""
    return set(re.findall(rb'<path id="m[0-9a-f]+" d="([^"]+)"', svg))


def comments(svg):
    """What the text says: it is drawn as outlines, with the words in comments."""
    return b"\n".join(re.findall(rb"<!--(.*?)-->", svg, re.S))


def test_the_same_lessons_give_the_same_bytes():
    told = course(None, "working", "secure")
    first = plots.rungs_over_time(told)
    plots.rule_curves(RUN, DEFAULT)
    assert plots.rungs_over_time(told) == first
    assert b"<dc:date>" not in first and b"matplotlib" not in first.lower().split(b"<defs>")[-1]


def test_working_and_secure_differ_in_shape_and_not_in_colour_alone():
    working = marker_shapes(plots.rungs_over_time(course("working", "working")))
    secure = marker_shapes(plots.rungs_over_time(course("secure", "secure")))
    assert working - secure and secure - working


def test_two_ladders_are_two_panels():
    both = plots.rungs_over_time(course("working", "secure", ladders=("read", "heat")))
    assert both.count(b'<g id="axes_') == 2


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_word_is_cut_in_any_language(language):
    for ladders in (("read",), ("read", "heat")):
        told = course(None, "working", "secure", *[None] * 3, ladders=ladders)
        for lesson in (told["lessons"], told["lessons"][:1]):
            figure = plots.steps({**told, "lessons": lesson}, "light", speaker_of(language))
            canvas = FigureCanvasAgg(figure)
            canvas.draw()
            for text in figure.findobj(Text):
                box = text.get_window_extent(canvas.get_renderer())
                inside = box.x0 >= 0 and box.x1 <= figure.bbox.x1
                assert not text.get_text() or inside, text.get_text()


def test_a_single_lesson_can_be_drawn():
    assert ET.fromstring(plots.rungs_over_time(course("working"))).tag.endswith("svg")


def test_a_dark_page_gets_other_colours():
    told = course("working", "secure")
    light, dark = plots.rungs_over_time(told), plots.rungs_over_time(told, "dark")
    assert b"#33407f" in light and b"#33407f" not in dark


def test_dates_name_the_year_only_where_the_year_changes():
    told = course("working", "secure")
    assert b"2026" not in comments(plots.rungs_over_time(told))
    told["lessons"][0]["day"] = "2025-12-20"
    said = comments(plots.rungs_over_time(told))
    assert b"2025" in said and b"2026" in said


def test_the_curves_of_a_rule_are_drawn_beside_the_default():
    one = plots.rule_curves(RUN, DEFAULT)
    assert one == plots.rule_curves(RUN, DEFAULT)
    assert one != plots.rule_curves(DEFAULT, DEFAULT)
    assert one.count(b"stroke-dasharray") >= 2


def test_on_a_narrow_screen_one_curve_stands_above_the_other():
    def size(svg):
        _, _, width, height = map(float, ET.fromstring(svg).attrib["viewBox"].split())
        return width, height

    wide, tall = (
        size(plots.rule_curves(RUN, DEFAULT)),
        size(plots.rule_curves(RUN, DEFAULT, tall=True)),
    )
    assert wide[0] > wide[1] and tall[0] < tall[1]
