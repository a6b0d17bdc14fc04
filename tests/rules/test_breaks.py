"""A drill's own start after breaks."""

import pytest

from cueladder.rules import Drill, RuleError, compile_chart
from cueladder.rules.breaks import breaks_json
from cueladder.rules.settings import REENTRY
from tests.drills import document

ROWS = [{"back": 0, "keep": 1}, {"back": 2, "keep": 0}, {"back": 4, "keep": 0},
        {"back": "half", "keep": 0}]  # fmt: skip


def test_a_drill_that_says_nothing_has_the_usual_rows_and_the_same_chart():
    plain = Drill.from_json(document())
    assert plain.breaks == REENTRY
    same = Drill.from_json(document(breaks=breaks_json(REENTRY)))
    assert compile_chart(same).id == compile_chart(plain).id


def test_its_own_rows_are_in_its_chart():
    chart = compile_chart(Drill.from_json(document(breaks=ROWS)))
    assert chart.reentry == ((10, 0), (28, 2), (90, 4), (None, "half"))
    assert chart.places[3].entry[1] == 2
    assert chart.table.keep[1] is None, "nothing is left of a count"


@pytest.mark.parametrize(
    "rows",
    [ROWS[:3], [*ROWS[:3], 7], [{"back": 9, "keep": 0}, *ROWS[1:]],
     [{"back": 0, "keep": 0.3}, *ROWS[1:]], [{"back": 0, "keep": True}, *ROWS[1:]],
     [{"keep": 0}, *ROWS[1:]]],
    ids=["too few", "no row", "too low", "another share", "no number", "nothing"],
)  # fmt: skip
def test_rows_that_cannot_be_are_refused(rows):
    with pytest.raises(RuleError):
        Drill.from_json(document(breaks=rows))
