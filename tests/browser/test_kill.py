"""The short run; the long one is `python -m tests.faults.kill_browser --kills 500`."""

import pytest

from tests.browser.phone import Phone
from tests.faults.kill_browser import begin, kill_often

pytestmark = pytest.mark.browser


def test_no_mark_the_screen_showed_is_lost_when_the_browser_is_killed(
    chromium, season, server, tmp_path
):
    phone = Phone(chromium, tmp_path / "profile", server.url)
    page = begin(phone, server, season[1].coach)
    tally = kill_often(phone, page, 12, seed=20261125)
    phone.close()
    assert tally.lost == set(), str(tally)
    assert len(tally.shown) >= 12
    assert tally.emptied == 1
    assert tally.restored >= tally.emptied
