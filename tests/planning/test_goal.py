"""The plan backwards from a competition, and how the lesson planner takes a goal."""

from datetime import date, timedelta

import pytest

from cueladder.planning import plan
from cueladder.planning.goal import NEAR, Goal, ahead, rhythm, room, spaced
from cueladder.rules import fresh
from tests.planning.lessons import left
from tests.planning.test_plan import DAY, HEAT, READ, by_role, standing

TODAY = date.fromisoformat(DAY)
WEEKLY = [TODAY - timedelta(days=7 * k) for k in range(1, 9)]


def on(days: int) -> date:
    return TODAY + timedelta(days=days)


def test_the_rhythm_is_the_middle_gap_of_the_last_lessons_and_survives_a_holiday():
    assert rhythm(sorted(WEEKLY)) == 7
    assert rhythm(sorted([*WEEKLY[:4], *(day - timedelta(days=30) for day in WEEKLY[4:])])) == 7
    assert rhythm(sorted(WEEKLY[:3])) is None


@pytest.mark.parametrize(
    ("last", "by", "lessons"),
    [(-7, 1, 1), (-7, 0, 0), (-7, 14, 2), (-7, 15, 3), (-1, 6, 0), (-1, 7, 1), (-40, 8, 2)],
)
def test_room_counts_the_lessons_before_the_day(last, by, lessons):
    assert room(on(last), 7.0, TODAY, on(by)) == lessons


def test_a_re_check_comes_sooner_the_nearer_the_competition():
    gaps = [(spaced(TODAY, on(days)) - TODAY).days for days in (2, 10, 30, 90, 365)]
    assert gaps == sorted(gaps) and gaps[0] == 1 and gaps[2] == 5
    assert all(TODAY < spaced(TODAY, on(days)) < on(days) for days in range(2, 400))


def test_what_is_not_met_yet_needs_a_lesson_more():
    never = ahead(READ, fresh(READ), 0, WEEKLY, TODAY, on(30))
    assert (never.needs, never.due, never.spaced) == (3, None, None)
    done = ahead(READ, left(READ, WEEKLY[0].isoformat(), met=1), 0, WEEKLY, TODAY, on(30))
    assert (done.needs, done.due) == (2, TODAY)
    once = left(READ, WEEKLY[0].isoformat(), met=1, secure=1)
    held = ahead(READ, once, 1, WEEKLY, TODAY, on(30))
    assert (held.needs, held.left, held.every) == (1, 5, 7)
    # a rung that has held is asked for again by its interval only
    assert held.due == WEEKLY[0] + timedelta(days=READ.intervals[1])
    assert ahead(READ, once, 2, WEEKLY, TODAY, on(30)).needs == 0


def test_a_long_rest_is_re_checked_today_and_few_lessons_have_no_rhythm():
    walk = left(READ, on(-40).isoformat(), met=1, secure=1)
    found = ahead(READ, walk, 1, WEEKLY[:2], TODAY, on(20))
    assert (found.spaced, found.every, found.left) == (TODAY, None, None)


def test_a_near_goal_that_misses_a_setting_comes_first_and_says_why():
    known = [
        standing("read", READ, "2026-03-01", met=1, secure=1),
        standing("heat", HEAT, "2026-02-05", met=0),
    ]
    assert by_role(plan(25, known, DAY), "main").drill == "heat"
    goal = Goal("Harbour Cup", on(NEAR), 1)
    asked = [standing("read", READ, "2026-03-01", met=1, secure=1, goal=goal), known[1]]
    main = by_role(plan(25, asked, DAY), "main")
    assert main.drill == "read"
    assert "for Harbour Cup it has held in 1 of 2 settings" in main.why


@pytest.mark.parametrize("goal", [Goal("Cup", on(NEAR + 1), 1), Goal("Cup", on(9), 2),
                                  Goal("Cup", on(0), 0)])  # fmt: skip
def test_a_goal_that_is_far_reached_or_over_changes_nothing(goal):
    assert not goal.calls(TODAY)
