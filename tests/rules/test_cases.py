import json
import random

import pytest

from tests.drills import charts
from tests.histories import history, replay, told
from tests.make_cases import AWAY, CHANGED, PATH, make, make_away, make_changed


@pytest.mark.parametrize(
    ("path", "made"), [(PATH, make), (CHANGED, make_changed), (AWAY, make_away)]
)
def test_the_shared_cases_are_those_of_todays_rules(path, made):
    assert json.loads(path.read_text()) == json.loads(json.dumps(made())), (
        "the rules changed: run `python -m tests.make_cases`"
    )


def test_a_history_replayed_twice_tells_the_same():
    chart = charts()[0]
    ops = history(chart, random.Random(3))
    assert told(chart, replay(chart, ops)) == told(chart, replay(chart, ops))
