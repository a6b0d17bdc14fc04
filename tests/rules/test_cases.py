import json
import random

from tests.drills import charts
from tests.histories import history, replay, told
from tests.make_cases import PATH, make


def test_the_shared_cases_are_those_of_todays_rules():
    assert json.loads(PATH.read_text()) == json.loads(json.dumps(make())), (
        "the rules changed: run `python -m tests.make_cases`"
    )


def test_a_history_replayed_twice_tells_the_same():
    chart = charts()[0]
    ops = history(chart, random.Random(3))
    assert told(chart, replay(chart, ops)) == told(chart, replay(chart, ops))
