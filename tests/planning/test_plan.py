import json
from dataclasses import replace

import pytest
from scipy.special import roots_jacobi

from cueladder.planning import Record, Standing, plan
from cueladder.planning.block import total
from cueladder.planning.pace import pace
from cueladder.planning.skill import Skill, skills
from cueladder.rules import Given, Mark, Move, RuleError, enter, fresh, rest, step
from tests.drills import chart_of
from tests.planning.lessons import left

READ, HEAT, MIX = (chart_of(k) for k in ("sensitization", "desensitization", "discrimination"))
DAY = "2026-03-02"


def standing(drill, chart, day=None, met=None, secure=None, place=None, **more):
    """A standing last worked on a day, training above the rung it met; see `left`."""
    walk = fresh(chart) if day is None else left(chart, day, met, secure, place)
    return Standing(drill, f"Drill {drill}", chart, walk, **more)


STARTERS = [standing("read", READ), standing("heat", HEAT), standing("mix", MIX)]


def roles(lesson):
    return [(block.role, block.drill) for block in lesson.blocks]


def by_role(lesson, role):
    return next(block for block in lesson.blocks if block.role == role)


def test_a_lesson_runs_from_rechecks_over_main_and_second_to_a_sure_success():
    lesson = plan(
        25,
        [
            standing("read", READ, "2026-02-20", met=1, secure=0),
            standing("heat", HEAT, "2026-02-25", met=0),
            standing("mix", MIX, "2026-02-25", met=0, secure=0),
        ],
        DAY,
    )
    kinds = [role for role, _ in roles(lesson)]
    assert kinds == sorted(kinds, key=["re-check", "main", "second", "sure success"].index)
    assert {"re-check", "main", "second", "sure success"} == set(kinds)


def test_the_main_drills_recheck_comes_last_of_the_rechecks():
    lesson = plan(
        25,
        [
            standing("a", READ, "2026-02-27", met=1),
            standing("b", HEAT, "2026-02-10", met=0),
            standing("c", READ, "2026-02-26", met=0),
        ],
        DAY,
    )
    checks = [drill for role, drill in roles(lesson) if role == "re-check"]
    assert len(checks) >= 2
    assert checks[-1] == by_role(lesson, "main").drill


def test_a_rung_met_last_week_is_rechecked_and_the_sentence_says_why():
    lesson = plan(20, [standing("read", READ, "2026-02-25", met=1)], DAY)
    check = lesson.blocks[0]
    assert (check.role, check.place) == ("re-check", 1)
    assert (
        check.why == "Re-check first: its rung was done once and has not yet held on a later day."
    )


def test_after_a_long_break_the_recheck_starts_lower_and_takes_longer():
    soon = plan(20, [standing("read", READ, "2026-02-25", met=3)], DAY).blocks[0]
    late = plan(20, [standing("read", READ, "2026-01-25", met=3, secure=3)], DAY).blocks[0]
    assert (soon.place, late.place) == (3, 1)
    assert late.cues > 1.5 * soon.cues
    assert late.climb < soon.climb
    assert "not worked for 36 days, so it starts 2 rungs lower" in late.why


def test_a_secure_rung_of_last_week_is_not_rechecked_unless_it_is_worked_on():
    lesson = plan(
        20,
        [
            standing("a", READ, "2026-02-10", met=1),
            standing("b", HEAT, "2026-02-10", met=0),
            standing("c", READ, "2026-02-27", met=1, secure=1),
        ],
        DAY,
    )
    assert ("re-check", "c") not in roles(lesson)


def test_rechecks_leave_most_of_the_lesson_to_the_work():
    many = [standing(f"d{i}", READ, "2026-02-25", met=1) for i in range(12)]
    lesson = plan(20, many, DAY)
    checks = [block for block in lesson.blocks if block.role == "re-check"]
    assert len(checks) >= 5
    assert total(checks[1:]) <= 0.4 * 20  # the second drill may bring its own on top
    assert by_role(lesson, "main").minutes > 2


def test_a_recheck_under_way_goes_on_where_it_was():
    walk = enter(READ, standing("read", READ, "2026-02-25", met=1).walk, DAY)
    walk = step(READ, walk, Given.ATTACK, Mark.CORRECT)
    check = plan(20, [Standing("read", "Read", READ, walk)], DAY).blocks[0]
    assert (check.role, check.cues) == ("re-check", 2)


def test_a_count_under_way_needs_fewer_cues():
    walk = enter(READ, fresh(READ), DAY)
    for _ in range(10):
        walk = step(READ, walk, Given.ATTACK, Mark.CORRECT)
    begun = plan(4, [Standing("read", "Read", READ, walk)], DAY)
    new = plan(4, [Standing("read", "Read", READ, enter(READ, fresh(READ), DAY))], DAY)
    assert begun.blocks[0].cues < new.blocks[0].cues
    assert begun.blocks[0].climb > new.blocks[0].climb


def test_a_count_that_waited_is_planned_from_where_it_was_left():
    walk = enter(READ, fresh(READ), "2026-02-25")
    for _ in range(12):
        walk = step(READ, walk, Given.ATTACK, Mark.CORRECT)
    lessons = [plan(20, [Standing("read", "Read", READ, walk)], day) for day in (DAY, "2026-03-20")]
    soon, late = (by_role(lesson, "main") for lesson in lessons)
    assert soon.cues / soon.decisions < late.cues / late.decisions
    assert plan(4, [Standing("read", "Read", READ, walk)], DAY).blocks[0].cues < 9


def test_a_top_that_is_met_and_not_due_is_not_worked_on():
    top = len(READ.places) - 1
    known = [
        standing("read", READ, "2026-02-25", met=top, secure=top),
        standing("heat", HEAT, "2026-03-01"),
    ]
    lesson = plan(20, known, DAY)
    assert {drill for role, drill in roles(lesson) if role != "sure success"} == {"heat"}


def test_near_the_cap_the_cues_left_are_no_more_than_the_cap_allows():
    walk = replace(enter(READ, fresh(READ), DAY), cues=READ.cap - 4)
    work = plan(1.6, [Standing("read", "Read", READ, walk)], DAY).blocks[0]
    assert work.decisions == 1
    assert work.cues <= 4
    assert work.climb == pytest.approx(0, abs=1e-9)


def test_a_drill_left_for_today_is_only_used_to_end_on():
    done = rest(READ, enter(READ, fresh(READ), DAY))
    lesson = plan(
        15, [Standing("read", "Read", READ, done), standing("heat", HEAT, "2026-02-10")], DAY
    )
    assert [drill for role, drill in roles(lesson) if role in ("main", "second")] == ["heat"]


def test_the_top_of_a_ladder_is_rechecked_but_not_worked_on():
    top = len(READ.places) - 1
    lesson = plan(
        20,
        [standing("read", READ, "2026-02-10", met=top), standing("heat", HEAT, "2026-03-01")],
        DAY,
    )
    assert ("re-check", "read") in roles(lesson)
    assert by_role(lesson, "main").drill == "heat"


def test_with_every_ladder_at_its_top_the_lesson_is_rechecks_and_a_sure_success():
    top = len(READ.places) - 1
    lesson = plan(20, [standing("read", READ, "2026-02-25", met=top)], DAY)
    assert roles(lesson) == [("re-check", "read"), ("sure success", "read")]


# --- which drill -----------------------------------------------------------------------------


def test_the_drill_not_worked_longest_is_the_main_drill_all_else_equal():
    lesson = plan(
        20,
        [standing("a", READ, "2026-02-27"), standing("b", READ, "2026-02-13")],
        DAY,
    )
    main = by_role(lesson, "main")
    assert main.drill == "b"
    assert "not worked for 17 days" in main.why


def test_a_drill_whose_recheck_is_due_goes_before_one_in_progress():
    lesson = plan(
        9, [standing("a", READ, "2026-02-25"), standing("b", READ, "2026-02-26", met=1)], DAY
    )
    assert by_role(lesson, "main").drill == "b"
    assert (
        "its rung was done once and has not yet held on a later day" in by_role(lesson, "main").why
    )


def test_the_kind_that_has_waited_longest_has_its_turn():
    lesson = plan(
        20,
        [
            standing("read", READ, "2026-03-01", met=0, secure=0),
            standing("heat", HEAT, "2026-02-26", met=0, secure=0),
            standing("mix", MIX, "2026-02-24", met=0, secure=0),
        ],
        DAY,
    )
    assert by_role(lesson, "main").drill == "mix"
    assert "it is time for a drill in answer or leave" in by_role(lesson, "main").why


def test_kinds_take_turns_from_lesson_to_lesson():
    days = dict.fromkeys(("read", "heat", "mix"), "2026-02-20")
    charts = {"read": READ, "heat": HEAT, "mix": MIX}
    mains = []
    for day in ("2026-03-02", "2026-03-04", "2026-03-06", "2026-03-09", "2026-03-11"):
        known = [standing(d, charts[d], days[d], met=0, secure=0) for d in charts]
        mains.append(by_role(plan(9, known, day), "main").drill)
        days[mains[-1]] = day
    assert mains[:3] == ["read", "heat", "mix"]
    assert mains[3:] == ["read", "heat"]


def test_the_second_drill_is_of_another_kind_where_there_is_one():
    lesson = plan(
        20,
        [
            standing("a", READ, "2026-02-20"),
            standing("b", READ, "2026-02-24"),
            standing("c", HEAT, "2026-02-24"),
        ],
        DAY,
    )
    assert by_role(lesson, "main").drill == "a"
    assert by_role(lesson, "second").drill == "c"


def test_attack_and_decoy_are_not_mixed_before_each_is_met_alone():
    lesson = plan(20, [], DAY, STARTERS)
    assert {by_role(lesson, r).drill for r in ("main", "second")} == {"read", "heat"}


def test_early_answers_call_for_the_paired_drill():
    early = standing("read", READ, "2026-02-27", paired="calm")
    called = replace(early, walk=replace(early.walk, why="back_early", move=Move.BACK))
    calm, other = standing("calm", HEAT, "2026-02-27"), standing("boil", HEAT, "2026-02-26")
    assert by_role(plan(9, [early, calm, other], DAY), "main").drill != "calm"
    main = by_role(plan(9, [called, calm, other], DAY), "main")
    assert main.drill == "calm"
    assert "early answers in Drill read call for it" in main.why


def test_work_in_progress_goes_before_something_new_of_the_same_kind():
    new = standing("a", READ)
    lesson = plan(20, [standing("b", READ, "2026-02-26")], DAY, [new])
    assert by_role(lesson, "main").drill == "b"


# --- the minutes -----------------------------------------------------------------------------


@pytest.mark.parametrize("minutes", [0.5, 1, 2, 3, 5, 7.5, 12, 20, 45, 120])
def test_a_plan_never_takes_more_minutes_than_there_are(minutes):
    known = [
        standing("read", READ, "2026-02-10", met=2, secure=1),
        standing("heat", HEAT, "2026-02-25", met=0),
        standing("mix", MIX, "2026-02-25", met=1, secure=0),
    ]
    for lesson in (plan(minutes, known, DAY), plan(minutes, [], DAY, STARTERS)):
        assert total(lesson.blocks) <= minutes + 1e-6
        assert lesson.spare == pytest.approx(minutes - total(lesson.blocks), abs=0.051)
        assert (lesson.note is None) == bool(lesson.blocks)


def test_in_five_minutes_the_main_drill_is_cut_short_and_says_so():
    slow = standing("read", READ, "2026-02-27", seconds=(30.0,) * 100)
    lesson = plan(5, [slow], DAY)
    main = by_role(lesson, "main")
    assert main.cut
    assert main.climb == 0  # fifteen passes do not fit
    assert main.why.endswith("; the count goes on in the next lesson.")
    assert [role for role, _ in roles(lesson)] == ["main", "sure success"]


def test_time_that_is_left_goes_into_more_decisions():
    known = [standing("read", READ, "2026-02-27"), standing("heat", HEAT, "2026-02-27")]
    short, long = plan(9, known, DAY), plan(20, known, DAY)
    assert by_role(short, "main").decisions == 1
    assert by_role(long, "main").decisions > 1
    assert long.spare < 5


def test_the_only_drill_is_rechecked_worked_on_and_ended_on():
    lesson = plan(12, [standing("read", READ, "2026-02-25", met=1, secure=0)], DAY)
    assert roles(lesson) == [("re-check", "read"), ("main", "read"), ("sure success", "read")]
    assert by_role(lesson, "sure success").place == 0


def test_a_new_fencer_gets_starters_from_the_bottom():
    lesson = plan(20, [], DAY, STARTERS)
    assert [role for role, _ in roles(lesson)] == ["main", "second", "sure success"]
    assert all(block.place == 0 for block in lesson.blocks)
    assert "it is new for this fencer" in by_role(lesson, "main").why


def test_with_no_drill_at_all_the_plan_is_empty_and_says_what_to_do():
    lesson = plan(20, [], DAY)
    assert (lesson.blocks, lesson.spare) == ((), 20)
    assert lesson.note == "No drill suits this fencer yet: add one first."


def test_the_sure_success_is_on_a_secure_rung_not_long_unworked():
    lesson = plan(
        20,
        [
            standing("a", READ, "2025-12-01", met=3, secure=3),
            standing("b", HEAT, "2026-02-25", met=1, secure=0),
            standing("c", READ, "2026-02-25"),
        ],
        DAY,
    )
    end = by_role(lesson, "sure success")
    assert (end.drill, end.place, end.cues, end.climb) == ("b", 0, 3, None)
    assert end.why == "End on something sure: silent · no stamp."


def test_a_secure_rung_is_surer_than_one_with_more_right_answers():
    proved = standing("z", READ, "2026-02-25", met=1, secure=1, record={1: (Record(3, 0, 3),)})
    hoped = standing("a", HEAT, "2026-02-25", met=1, record={1: (Record(40, 0, 0),)})
    assert by_role(plan(20, [proved, hoped], DAY), "sure success").drill == "z"


def test_a_fencer_who_answers_better_is_told_a_better_chance():
    def climb(passes, misses):
        known = standing("read", READ, "2026-02-27", record={0: (Record(passes, 0, misses),)})
        return by_role(plan(20, [known], DAY), "main").climb

    assert climb(10, 10) < climb(15, 5) < climb(20, 0)


def test_answers_on_other_rungs_count_for_ten_cues_at_most():
    few = standing("read", READ, record={0: (Record(5, 0, 5),)})
    many = standing("read", READ, record={0: (Record(500, 0, 500),)})
    assert skills(few, 1) == skills(many, 1)
    assert skills(many, 0)[0].mean == pytest.approx(0.5, abs=0.01)
    once = standing("read", READ, record={0: (Record(10, 0, 10),)})
    assert skills(once, 0)[0].mean == pytest.approx((0.85 * 5 + 10) / 25)
    assert skills(few, 1)[0].mean == pytest.approx((0.85 * 5 + 5) / 15)


def test_attacks_and_decoys_are_reckoned_apart():
    known = standing("mix", MIX, record={0: (Record(20, 0, 0), Record(10, 0, 10))})
    attack, decoy = skills(known, 0)
    assert attack.mean > 0.95 > 0.6 > decoy.mean


@pytest.mark.parametrize(
    ("a", "b"), [(17.0, 3.0), (4.25, 0.75), (0.5, 0.5), (1.0, 1.0), (40.0, 7.5)]
)
def test_the_quadrature_agrees_with_a_published_routine(a, b):
    points, weights = roots_jacobi(24, b - 1, a - 1)
    found = Skill(a, b, 0.0).nodes(24)
    assert found[0] == pytest.approx((1 + points) / 2, abs=1e-12)
    assert found[1] == pytest.approx(weights / weights.sum(), abs=1e-12)


@pytest.mark.parametrize(("a", "b"), [(17.0, 3.0), (9e3, 1e3), (1e6, 2.0), (3.0, 1e6)])
def test_the_quadrature_knows_the_mean_and_the_spread_of_any_record(a, b):
    p, weights = Skill(a, b, 0.0).nodes()
    mean = a / (a + b)
    assert weights.sum() == pytest.approx(1)
    assert weights @ p == pytest.approx(mean)
    assert weights @ (p - mean) ** 2 == pytest.approx(
        a * b / ((a + b) ** 2 * (a + b + 1)), rel=1e-3
    )


def test_a_season_of_answers_can_be_planned_from():
    known = standing(
        "mix", MIX, "2026-02-27", record={0: (Record(9000, 0, 300), Record(8000, 9, 0))}
    )
    assert 0.5 < by_role(plan(30, [known], DAY), "main").climb < 1


# --- pace ------------------------------------------------------------------------------------


def test_a_fencer_nobody_has_timed_takes_twelve_seconds_a_cue():
    assert pace([]) == 12


def test_the_pace_moves_to_the_fencers_own_with_more_cues():
    assert 12 > pace([8.0] * 5) > pace([8.0] * 50) > pace([8.0] * 500) > 8


def test_a_long_pause_counts_as_a_minute():
    assert pace([600.0]) == pace([60.0])


def test_a_drill_not_timed_yet_goes_at_the_fencers_usual_pace():
    fast = standing("b", HEAT, "2026-02-27", seconds=(6.0,) * 400)
    slow = standing("b", HEAT, "2026-02-27")
    new = standing("a", READ, "2026-02-10")
    quick, usual = (by_role(plan(20, [new, o], DAY), "main") for o in (fast, slow))
    assert quick.drill == usual.drill == "a"
    assert quick.minutes / quick.decisions < 0.7 * usual.minutes / usual.decisions


# --- in and out ------------------------------------------------------------------------------


def test_the_plan_is_the_same_in_whatever_order_the_drills_come():
    known = [
        standing("read", READ, "2026-02-25", met=1),
        standing("heat", HEAT, "2026-02-25", met=0),
        standing("mix", MIX, "2026-02-25", met=0),
    ]
    assert plan(20, known, DAY) == plan(20, known[::-1], DAY)
    assert plan(20, [], DAY, STARTERS) == plan(20, [], DAY, STARTERS[::-1])


def test_a_plan_travels_as_json():
    lesson = plan(20, [standing("read", READ, "2026-02-25", met=1)], DAY)
    doc = json.loads(json.dumps(lesson.to_json()))
    assert doc["minutes"] == 20
    assert [b["role"] for b in doc["blocks"]] == ["re-check", "main", "sure success"]
    assert {"drill", "name", "kind", "minutes", "cues", "climb", "why"} <= doc["blocks"][0].keys()
    assert doc["blocks"][-1]["climb"] is None


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"walk": fresh(HEAT)}, "walk.chart"),
        ({"record": {99: (Record(1, 0, 0),)}}, "record.99"),
        ({"record": {0: ((1, 0),)}}, "record.0"),
        ({"record": {0: (Record(1, 0, -1),)}}, "record.0"),
        ({"record": {0: (Record(1, 0, 0), Record(1, 0, 0))}}, "record.0"),
        ({"seconds": (0,)}, "seconds"),
        ({"seconds": ("9",)}, "seconds"),
        ({"seconds": (float("inf"),)}, "seconds"),
    ],
)
def test_a_bad_standing_names_its_field(change, field):
    with pytest.raises(RuleError) as error:
        replace(standing("read", READ, "2026-02-25"), **change)
    assert error.value.field == field


@pytest.mark.parametrize("minutes", [0, -5, 241, float("nan"), float("inf"), True])
def test_minutes_that_make_no_lesson_are_refused(minutes):
    with pytest.raises(RuleError, match="minutes: should be above 0"):
        plan(minutes, [], DAY)


@pytest.mark.parametrize("day", ["2026-02-30", "today", None])
def test_a_day_that_is_none_is_refused(day):
    with pytest.raises(RuleError, match="day: should be a day such as"):
        plan(20, STARTERS, day)


def test_a_drill_given_twice_is_refused():
    with pytest.raises(RuleError, match="standings: each drill once"):
        plan(20, [STARTERS[0], STARTERS[0]], DAY)


def test_a_starter_the_fencer_has_worked_is_no_starter():
    known = standing("read", READ, "2026-02-25", met=1)
    assert plan(20, [known], DAY, [STARTERS[0]]) == plan(20, [known], DAY)
