"""The short run; the long one is `python -m tests.faults.kill_browser`, with `--engine`."""

import pytest

from tests.faults.kill_browser import begin, kill_often

pytestmark = pytest.mark.browser


def test_no_mark_the_screen_showed_is_lost_when_the_browser_is_killed(salle):
    lesson = begin(salle.engine, salle.server)
    tally = kill_often(salle.engine, salle.url, lesson, 4, seed=20261125, emptied_every=4)
    assert tally.lost == set(), str(tally)
    assert len(tally.shown) >= 4
    assert tally.emptied == 1
    assert tally.restored >= tally.emptied
