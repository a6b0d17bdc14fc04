"""The walk: what a coach sees after each mark, over days."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cueladder.rules import (
    Given,
    Mark,
    RuleError,
    enter,
    fresh,
    rest,
    set_place,
    status,
    step,
)
from cueladder.rules import suggestion as suggest
from tests.drills import chart_of, charts
from tests.examples import examples
from tests.histories import history, replay

ATTACK, DECOY = Given.ATTACK, Given.DECOY
RIGHT, TENSE, LATE, EARLY, REACTED = Mark
DAY = "2026-03-02"


def begin(kind="sensitization", **changes):
    chart = chart_of(kind, **changes)
    return chart, enter(chart, fresh(chart), DAY)


def give(chart, walk, marks, given=ATTACK):
    for mark in marks:
        walk = step(chart, walk, given, mark)
    return walk


def climb(chart, walk, times=1):
    for _ in range(times):
        place = walk.place
        for _ in range(200):
            for kind in chart.meaning:
                if walk.place == place and walk.phase != "close":
                    walk = step(chart, walk, kind, RIGHT)
            if walk.place != place or walk.phase == "close":
                break
    return walk


class TestSensitization:
    def test_fifteen_clean_answers_climb_one_grade_on_one_scale(self):
        chart, walk = begin()
        walk = give(chart, walk, [RIGHT] * 15)
        said = suggest(chart, walk)
        assert (said.move, said.place, walk.met) == ("climb", 1, 0)
        assert said.changed == "Size: forearm (was whole arm)"
        assert said.cue == ("forearm · slow",)

    def test_tense_but_right_counts(self):
        chart, walk = begin()
        assert give(chart, walk, [TENSE] * 15).place == 1

    def test_two_late_answers_make_the_cue_plainer(self):
        chart, walk = begin()
        walk = give(chart, climb(chart, walk, 2), [LATE, LATE])
        assert (walk.place, walk.move, walk.why) == (1, "back", "back_read")
        assert suggest(chart, walk).changed == "Speed: slow (was half speed)"

    def test_a_startled_answer_repeats_the_cue_and_the_third_running_steps_back(self):
        chart, walk = begin(rule={"family": "run", "n": 9, "back_in_row": 4, "back_in_last": None})
        walk = give(chart, climb(chart, walk), [EARLY, EARLY])
        assert (walk.place, walk.move, walk.why) == (1, "stay", "early")
        walk = give(chart, walk, [EARLY])
        assert (walk.place, walk.move, walk.why) == (0, "back", "back_early")
        assert "{paired}" in chart.words["why"]["back_early"]

    def test_early_answers_with_a_late_one_between_do_not_run(self):
        rule = {"family": "run", "n": 9, "back_in_row": 5, "back_in_last": None}
        chart, walk = begin(rule=rule, startles=2)
        walk = give(chart, climb(chart, walk), [EARLY, LATE, EARLY])
        assert walk.place == 1

    @pytest.mark.parametrize("startles", [2, 3, 4, 5])
    def test_a_drill_says_how_many_startles_running_lead_one_rung_back(self, startles):
        chart, walk = begin(startles=startles)
        walk = give(chart, climb(chart, walk), [EARLY] * (startles - 1))
        assert walk.place == 1
        assert give(chart, walk, [EARLY]).place == 0

    def test_at_the_bottom_a_step_back_repeats_the_plainest_cue(self):
        chart, walk = begin()
        walk = give(chart, walk, [LATE, LATE])
        assert (walk.place, walk.move, walk.why, walk.counters) == (0, "stay", "bottom_read", (0,))

    def test_at_the_bottom_slips_without_end_reach_the_cap(self):
        chart, walk = begin(cap=10)
        assert give(chart, walk, [LATE] * 10).why == "cap"

    def test_a_decoy_cannot_be_marked(self):
        chart, walk = begin()
        with pytest.raises(RuleError) as caught:
            step(chart, walk, DECOY, RIGHT)
        assert caught.value.field == "given"
        with pytest.raises(RuleError) as caught:
            step(chart, walk, ATTACK, REACTED)
        assert caught.value.field == "mark"

    def test_the_top_rung_met_leaves_the_drill_on_a_success(self):
        chart, walk = begin()
        walk = climb(chart, walk, 5)
        assert (walk.move, walk.why, walk.met) == ("rest", "top", 4)


class TestDesensitization:
    def test_a_tense_answer_leaves_the_count_exactly_as_it_is(self):
        chart, walk = begin("desensitization")
        walk = give(chart, walk, [RIGHT] * 10 + [LATE] + [RIGHT] * 6)
        tense = give(chart, walk, [TENSE] * 3)
        assert (tense.place, tense.why, tense.counters) == (0, "hold", walk.counters)
        assert suggest(chart, tense).progress[0].have == 6

    def test_tense_answers_alone_neither_pass_nor_fail_a_recheck(self):
        chart, walk = begin("desensitization")
        walk = enter(chart, climb(chart, walk), "2026-03-04")
        tense = give(chart, walk, [TENSE] * 5)
        assert (tense.phase, tense.check, tense.secure, tense.why) == (
            "check",
            (0, 0),
            None,
            "hold",
        )
        assert give(chart, tense, [RIGHT, TENSE, RIGHT, RIGHT]).secure == 0

    @pytest.mark.parametrize("slips", [[LATE] * 2, [EARLY] * 3], ids=str)
    def test_slips_running_cool_the_cue(self, slips):
        chart, walk = begin("desensitization")
        walk = give(chart, climb(chart, walk), slips)
        assert (walk.place, walk.why) == (0, "back_heat")

    def test_startles_leave_the_cue_until_they_run_even_under_an_impatient_rule(self):
        chart, walk = begin("desensitization")
        walk = give(chart, climb(chart, walk), [EARLY, EARLY])
        assert (walk.place, walk.move) == (1, "stay")

    def test_reacting_to_decoys_cools_the_cue(self):
        chart, walk = begin("desensitization")
        walk = give(chart, climb(chart, walk), [REACTED] * 3, DECOY)
        assert (walk.place, walk.why) == (0, "back_heat")


class TestDiscrimination:
    def test_attacks_that_are_ready_wait_for_the_decoys(self):
        chart, walk = begin("discrimination")
        walk = give(chart, walk, [RIGHT] * 15)
        assert (walk.place, walk.move, walk.why) == (0, "stay", "waits")
        walk = give(chart, walk, [RIGHT] * 15, DECOY)
        assert walk.move == "climb"

    def test_a_slip_on_a_finished_half_takes_its_price_off_and_no_more(self):
        chart, walk = begin("discrimination")
        walk = give(chart, walk, [RIGHT] * 15 + [LATE])
        assert [count.have for count in suggest(chart, walk).progress] == [5, 0]

    def test_the_relatively_lower_ladder_climbs_and_a_tie_goes_to_read(self):
        chart, walk = begin("discrimination")
        seen = [(0, 0)]
        for _ in range(6):
            walk = climb(chart, walk)
            seen.append((chart.places[walk.place].read, chart.places[walk.place].heat))
        assert seen == [(0, 0), (1, 0), (1, 1), (2, 1), (3, 1), (3, 2), (4, 2)]

    @pytest.mark.parametrize(
        ("given_", "mark", "ladder"),
        [(ATTACK, LATE, "read"), (ATTACK, EARLY, "heat"), (DECOY, REACTED, "heat")],
    )
    def test_the_kind_of_error_chooses_the_ladder_that_gives_way(self, given_, mark, ladder):
        chart, walk = begin("discrimination")
        walk = climb(chart, walk, 3)
        before = chart.places[walk.place]
        slips = [mark] * (2 if mark is LATE else 3)
        after = chart.places[give(chart, walk, slips, given_).place]
        other = "heat" if ladder == "read" else "read"
        assert getattr(after, ladder) == getattr(before, ladder) - 1
        assert getattr(after, other) == getattr(before, other)

    def test_startled_answers_running_cool_the_cue_even_under_a_patient_rule(self):
        rule = {"family": "run", "n": 9, "back_in_row": 4, "back_in_last": None}
        chart, walk = begin("discrimination", rule=rule)
        for _ in range(3):
            walk = climb(chart, walk)
        heat = chart.places[walk.place].heat
        walk = give(chart, walk, [REACTED] * 3, DECOY)
        assert chart.places[walk.place].heat == heat - 1


class TestCountsThatWait:
    def test_a_count_goes_on_in_the_next_lesson_where_it_was_left(self):
        chart, walk = begin()
        walk = enter(chart, give(chart, walk, [RIGHT] * 9), "2026-03-12")
        assert (walk.why, suggest(chart, walk).progress[0].have) == ("kept", 9)
        assert give(chart, walk, [RIGHT] * 6).why == "climb"

    @pytest.mark.parametrize(
        ("day", "left"),
        [("2026-03-12", 9), ("2026-03-13", 4), ("2026-03-30", 4), ("2026-03-31", 0)],
    )
    def test_a_longer_break_leaves_half_of_a_count_then_nothing(self, day, left):
        chart, walk = begin()
        walk = enter(chart, give(chart, walk, [RIGHT] * 9), day)
        assert suggest(chart, walk).progress[0].have == left
        assert walk.why == ("kept" if left else "on")

    def test_slips_of_another_day_are_not_close_together(self):
        chart, walk = begin()
        walk = enter(chart, give(chart, climb(chart, walk, 2), [LATE]), "2026-03-04")
        walk = give(chart, walk, [RIGHT] * 3)  # the re-check
        assert (walk.place, give(chart, walk, [LATE]).place) == (2, 2)

    def test_a_count_waits_through_a_rest_and_a_recheck(self):
        chart, walk = begin()
        walk = rest(chart, give(chart, climb(chart, walk), [RIGHT] * 6))
        assert (walk.place, walk.work) == (0, 1)
        walk = give(chart, enter(chart, walk, "2026-03-04"), [RIGHT] * 3)
        assert (walk.place, walk.why, suggest(chart, walk).progress[0].have) == (1, "held", 6)

    def test_the_cap_leaves_the_count_with_the_last_cue_in_it(self):
        chart, walk = begin(cap=9)
        walk = give(chart, walk, [RIGHT] * 9)
        assert walk.why == "cap"
        walk = enter(chart, walk, "2026-03-04")
        assert suggest(chart, walk).progress[0].have == 9

    def test_both_halves_of_a_mixed_drill_wait(self):
        chart, walk = begin("discrimination")
        walk = give(chart, give(chart, walk, [RIGHT] * 15), [RIGHT] * 4, DECOY)
        walk = enter(chart, walk, "2026-03-09")
        assert [count.have for count in suggest(chart, walk).progress] == [15, 4]
        walk = enter(chart, walk, "2026-03-30")
        assert [count.have for count in suggest(chart, walk).progress] == [7, 2]

    @pytest.mark.parametrize(
        "family", [{"family": "run", "n": 9}, {"family": "window", "k": 8, "w": 9}]
    )
    def test_what_is_counted_in_a_row_is_of_one_lesson(self, family):
        chart, walk = begin(rule=family)
        walk = enter(chart, give(chart, walk, [RIGHT] * 7), "2026-03-04")
        assert suggest(chart, walk).progress[0].have == 0

    def test_a_count_may_owe_slips_and_a_break_forgives_half_of_them(self):
        rule = {"family": "changepoint", "goal": 12, "slip": 6, "floor": 12, "patience": 4}
        chart, walk = begin(rule=rule)
        walk = give(chart, walk, [LATE] * 3)
        assert suggest(chart, walk).progress[0].have == -12
        walk = enter(chart, walk, "2026-03-20")
        assert suggest(chart, walk).progress[0].have == -6


class TestStanding:
    def test_a_rung_met_today_is_working_and_secure_after_three_clean_on_a_later_day(self):
        chart, walk = begin()
        walk = climb(chart, walk)
        assert status(chart, walk) == "working"
        walk = enter(chart, walk, "2026-03-04")
        assert (walk.phase, walk.place, walk.why) == ("check", 0, "check")
        walk = give(chart, walk, [RIGHT] * 3)
        assert (walk.phase, walk.place, walk.secure) == ("train", 1, 0)
        assert status(chart, walk) == "secure"

    def test_no_recheck_on_the_same_day(self):
        chart, walk = begin()
        walk = climb(chart, walk)
        assert enter(chart, walk, DAY) == walk

    def test_a_rung_that_has_held_is_left_alone_until_its_time_has_come(self):
        chart, walk = begin()
        walk = give(chart, enter(chart, climb(chart, walk), "2026-03-04"), [RIGHT] * 3)
        for day in ("2026-03-10", "2026-03-20", "2026-03-30"):
            walk = enter(chart, walk, day)
            assert (walk.phase, walk.place) == ("train", 1)
        walk = enter(chart, walk, "2026-04-01")  # four weeks after it held
        assert (walk.phase, walk.place) == ("check", 0)
        walk = give(chart, walk, [RIGHT] * 3)
        assert walk.rungs[0].holds == 2
        for week in range(8):
            walk = enter(chart, walk, f"2026-0{5 + week // 4}-{1 + 7 * (week % 4):02}")
            assert walk.phase == "train"
        assert enter(chart, walk, "2026-06-30").phase == "check"  # ninety days after it held

    def test_a_heat_ladder_is_rechecked_sooner(self):
        chart, walk = begin("desensitization")
        walk = give(chart, enter(chart, climb(chart, walk), "2026-03-04"), [RIGHT] * 3)
        walk = enter(chart, walk, "2026-03-14")
        assert walk.phase == "train"
        assert enter(chart, enter(chart, walk, "2026-03-24"), "2026-03-25").phase == "check"

    def test_a_failed_recheck_keeps_the_rung_in_training_with_what_a_slip_leaves(self):
        chart, walk = begin()
        walk = climb(chart, walk, 3)
        walk = give(chart, enter(chart, walk, "2026-03-04"), [RIGHT, RIGHT, LATE])
        assert (walk.place, walk.work, walk.met, walk.move) == (2, 2, 2, "stay")
        assert (walk.phase, walk.why, walk.was) == ("train", "failed", None)
        assert [rung.place for rung in walk.rungs] == [0, 1, 2]
        assert suggest(chart, walk).progress[0].have == 5
        assert status(chart, walk) == "working"
        assert give(chart, walk, [RIGHT] * 10).place == 3

    def test_a_rung_that_was_secure_and_failed_has_not_held_yet(self):
        chart, walk = begin()
        walk = give(chart, enter(chart, climb(chart, walk, 2), "2026-03-04"), [RIGHT] * 3)
        assert status(chart, walk) == "secure"
        walk = give(chart, enter(chart, walk, "2026-04-01"), [RIGHT] * 3 + [LATE])
        assert (walk.met, walk.secure, walk.work) == (1, 0, 1)
        assert status(chart, walk) == "working"

    def test_a_rung_in_training_again_is_not_rechecked_but_trained(self):
        chart, walk = begin()
        walk = give(chart, enter(chart, climb(chart, walk), "2026-03-04"), [LATE])
        walk = enter(chart, walk, "2026-03-09")
        assert (walk.phase, walk.place, suggest(chart, walk).progress[0].have) == ("train", 0, 5)

    def test_a_failed_recheck_of_a_mixed_drill_leaves_the_other_half_finished(self):
        chart, walk = begin("discrimination")
        walk = step(chart, enter(chart, climb(chart, walk), "2026-03-04"), DECOY, REACTED)
        assert [count.have for count in suggest(chart, walk).progress] == [15, 5]
        assert give(chart, walk, [RIGHT] * 10, DECOY).why == "climb"

    @pytest.mark.parametrize(
        ("day", "place"),
        [
            ("2026-03-03", 3),  # 1 day
            ("2026-03-12", 3),  # 10 days
            ("2026-03-13", 2),  # 11
            ("2026-03-30", 2),  # 28
            ("2026-03-31", 1),  # 29
            ("2026-05-31", 1),  # 90
            ("2026-06-01", 1),  # 91: halfway down from rung 3
            ("2028-02-29", 1),
        ],
    )
    def test_the_next_lesson_starts_lower_the_longer_the_break(self, day, place):
        chart, walk = begin()
        walk = climb(chart, walk, 4)
        assert walk.met == 3
        assert enter(chart, walk, day).place == place

    def test_a_rung_that_has_held_often_starts_as_after_the_next_shorter_break(self):
        chart, walk = begin()
        walk = climb(chart, walk, 3)
        for day in ("2026-03-04", "2026-04-01", "2026-06-30"):
            walk = give(chart, enter(chart, walk, day), [RIGHT] * 9)
        assert walk.rungs[-1].holds == 3
        assert enter(chart, walk, "2026-07-20").place == 3  # 20 days
        assert enter(chart, walk, "2026-08-26").place == 1  # 57 days: one back instead of two

    def test_held_rechecks_lead_back_up_to_the_last_rung_before_any_climbing(self):
        chart, walk = begin()
        walk = enter(chart, climb(chart, walk, 4), "2026-03-20")
        walk = give(chart, walk, [RIGHT] * 3)
        assert (walk.phase, walk.place, walk.move) == ("check", 3, "climb")
        walk = give(chart, walk, [RIGHT] * 3)
        assert (walk.phase, walk.place, walk.secure) == ("train", 4, 3)
        assert [rung.holds for rung in walk.rungs] == [0, 0, 1, 1]

    def test_after_two_steps_back_the_higher_rungs_no_longer_count_as_met(self):
        chart, walk = begin()
        walk = climb(chart, walk, 3)
        walk = give(chart, walk, [LATE] * 4)
        assert (walk.place, walk.met) == (1, 1)

    def test_a_lesson_dated_before_the_last_one_changes_nothing_on_entry(self):
        chart, walk = begin()
        walk = climb(chart, walk)
        assert enter(chart, walk, "2026-03-01") == walk

    def test_the_top_is_rechecked_when_due_and_the_drill_left_on_it(self):
        chart, walk = begin()
        walk = enter(chart, climb(chart, walk, 5), "2026-03-04")
        assert (walk.phase, walk.place) == ("check", 4)
        walk = give(chart, walk, [RIGHT] * 3)
        assert (walk.phase, walk.why, walk.secure) == ("close", "top", 4)

    def test_the_top_is_trained_while_no_recheck_is_due_and_a_slip_costs_its_price(self):
        chart, walk = begin()
        walk = give(chart, enter(chart, climb(chart, walk, 5), "2026-03-04"), [RIGHT] * 3)
        walk = give(chart, enter(chart, walk, "2026-03-10"), [RIGHT] * 2)
        assert (walk.phase, walk.place, walk.why) == ("train", 4, "pass")
        walk = give(chart, walk, [LATE])
        assert (walk.met, suggest(chart, walk).progress[0].have) == (4, 5)


class TestByHand:
    def test_a_rung_set_by_hand_is_trained_and_nothing_counts_as_met_by_it(self):
        chart, walk = begin()
        walk = set_place(chart, walk, 3)
        assert (walk.place, walk.work, walk.met, walk.why) == (3, 3, None, "set")
        assert status(chart, walk) is None
        walk = give(chart, walk, [RIGHT] * 15)
        assert (walk.place, walk.met, len(walk.rungs)) == (4, 3, 1)

    def test_a_rung_set_below_what_was_met_takes_the_higher_rungs_off(self):
        chart, walk = begin()
        walk = set_place(chart, climb(chart, walk, 3), 1)
        assert [rung.place for rung in walk.rungs] == [0]

    def test_a_fencer_with_nothing_met_goes_on_where_the_coach_set_the_rung(self):
        chart, walk = begin()
        walk = give(chart, set_place(chart, walk, 3), [RIGHT] * 4)
        walk = enter(chart, walk, "2026-03-09")
        assert (walk.place, walk.phase, suggest(chart, walk).progress[0].have) == (3, "train", 4)

    def test_after_a_long_break_what_lies_below_a_set_rung_is_checked_first(self):
        chart, walk = begin()
        walk = enter(chart, set_place(chart, walk, 3), "2026-04-20")
        assert (walk.phase, walk.place, walk.work) == ("check", 1, 3)
        walk = give(chart, walk, [RIGHT] * 6)
        assert (walk.phase, walk.place, walk.met, walk.why) == ("train", 3, None, "sure")
        walk = enter(chart, set_place(chart, walk, 3), "2026-06-01")
        assert give(chart, walk, [RIGHT] * 3 + [LATE]).work == 2

    def test_a_rung_that_does_not_exist_is_refused(self):
        chart, walk = begin()
        with pytest.raises(RuleError) as caught:
            set_place(chart, walk, 5)
        assert caught.value.field == "place"

    def test_setting_a_rung_ends_a_rest(self):
        chart, walk = begin()
        walk = set_place(chart, rest(chart, climb(chart, walk)), 1)
        assert walk.phase == "train"


class TestRest:
    def test_the_cap_without_a_decision_leaves_the_drill(self):
        chart, walk = begin(cap=12, rule={"family": "run", "n": 9})
        walk = give(chart, walk, ([RIGHT] * 7 + [LATE]) * 2)
        assert walk.phase == "close"
        chart, walk = begin(cap=12, rule={"family": "run", "n": 9})
        walk = give(chart, walk, [RIGHT] * 7 + [LATE] + [RIGHT] * 4)
        assert (walk.move, walk.why) == ("rest", "cap")

    def test_discrimination_counts_both_halves_against_twice_the_cap(self):
        assert chart_of("discrimination", cap=20).cap == 40

    def test_three_closing_cues_are_given_on_the_last_secure_rung(self):
        chart, walk = begin()
        walk = enter(chart, climb(chart, walk, 2), "2026-03-04")
        walk = give(chart, walk, [RIGHT] * 3)
        walk = rest(chart, walk)
        assert (walk.place, suggest(chart, walk).progress[0].need) == (1, 3)
        whys = []
        for _ in range(3):
            walk = step(chart, walk, ATTACK, RIGHT)
            whys.append(walk.why)
        assert whys == ["closing", "closing", "done"]

    def test_closing_cues_never_change_the_standing(self):
        chart, walk = begin()
        walk = rest(chart, climb(chart, walk, 2))
        assert give(chart, walk, [LATE] * 10).met == 1


@given(st.sampled_from(charts()), st.randoms(use_true_random=False))
@examples(66)
def test_any_history_keeps_the_walk_within_its_chart(chart, rng):
    for walk in replay(chart, history(chart, rng)):
        assert 0 <= walk.place < len(chart.places)
        assert walk.met is None or 0 <= walk.met < len(chart.places)
        heights = [chart.places[rung.place].height for rung in walk.rungs]
        assert heights == sorted(set(heights))
        assert not heights or heights[-1] <= chart.places[walk.work].height
        assert walk.met == (walk.rungs[-1].place if walk.rungs else None)
        held = [rung.place for rung in walk.rungs if rung.holds]
        assert walk.secure == (held[-1] if held else None)
        assert walk.secure is None or walk.met is not None
        assert walk.why in chart.words["why"]
        if walk.secure is not None:
            assert chart.places[walk.secure].height <= chart.places[walk.met].height
        said = suggest(chart, walk)
        assert said.cue and all(p.have <= p.need for p in said.progress)


@given(st.sampled_from(charts()), st.randoms(use_true_random=False))
@examples(66)
def test_one_mark_moves_at_most_one_rung_while_training(chart, rng):
    ops = history(chart, rng)
    walks = replay(chart, ops)
    for op, old, new in zip(ops[1:], walks, walks[1:], strict=False):
        if op["do"] == "mark" and new.phase != "close" and old.phase != "find":
            assert abs(chart.places[new.place].height - chart.places[old.place].height) <= 1
