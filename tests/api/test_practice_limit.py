"""Ticks are counted on the real clock: the counters' own thread would not see a frozen one."""

from datetime import date

from cueladder.limits import limiter
from cueladder.store.access.links import create_link
from tests.pages import season


def test_many_ticks_at_once_are_slowed_down_in_plain_words(club):
    drills = season.drills_for(club, season.SLUGS[:1])
    season.lessons(club, drills, [date.today()], each=1)
    token = create_link(club.id, club.fencer, club.coach).token
    limiter.reset()
    form = {"drill": drills[0][0]}
    post = club.app.test_client().post
    answers = [post(f"/p/{token}/practice", data=form) for _ in range(21)]
    assert [answer.status_code for answer in answers] == [303] * 20 + [429]
    assert "A little slower, please" in answers[-1].text
    assert answers[-1].headers["Cache-Control"] == "no-store"
