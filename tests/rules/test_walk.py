"""The walk: what a coach sees after each mark, over days."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cueladder.rules import Given, Mark, RuleError, enter, fresh, rest, set_place, status, step
from cueladder.rules import suggestion as suggest
from tests.drills import chart_of, charts
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

    def test_one_early_answer_repeats_and_the_second_in_a_row_steps_back(self):
        chart, walk = begin(rule={"family": "run", "n": 9, "back_in_row": 4, "back_in_last": None})
        walk = give(chart, climb(chart, walk), [EARLY])
        assert (walk.place, walk.move, walk.why) == (1, "stay", "early")
        walk = give(chart, walk, [EARLY])
        assert (walk.place, walk.move, walk.why) == (0, "back", "back_early")
        assert "{paired}" in chart.words["why"]["back_early"]

    def test_early_then_late_does_not_count_as_early_twice(self):
        chart, walk = begin(rule={"family": "run", "n": 9, "back_in_row": 4, "back_in_last": None})
        walk = give(chart, climb(chart, walk), [EARLY, LATE, EARLY])
        assert walk.place == 1

    def test_at_the_bottom_a_step_back_repeats_the_plainest_cue(self):
        chart, walk = begin()
        walk = give(chart, walk, [LATE, LATE])
        assert (walk.place, walk.move, walk.why, walk.counters) == (0, "stay", "bottom_read", (0,))

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
    def test_a_tense_answer_is_not_counted_and_costs_the_count(self):
        chart, walk = begin("desensitization")
        walk = give(chart, walk, [RIGHT] * 14 + [TENSE])
        assert (walk.place, walk.why) == (0, "hold")
        assert suggest(chart, walk).progress[0].have == 4

    @pytest.mark.parametrize("mark", [LATE, EARLY])
    def test_any_miss_cools_the_cue(self, mark):
        chart, walk = begin("desensitization")
        walk = give(chart, climb(chart, walk), [mark, mark])
        assert (walk.place, walk.why) == (0, "back_heat")

    def test_reacting_to_decoys_cools_the_cue(self):
        chart, walk = begin("desensitization")
        walk = give(chart, climb(chart, walk), [REACTED, REACTED], DECOY)
        assert (walk.place, walk.why) == (0, "back_heat")


class TestDiscrimination:
    def test_attacks_that_are_ready_wait_for_the_decoys(self):
        chart, walk = begin("discrimination")
        walk = give(chart, walk, [RIGHT] * 15)
        assert (walk.place, walk.move, walk.why) == (0, "stay", "waits")
        walk = give(chart, walk, [RIGHT] * 15, DECOY)
        assert walk.move == "climb"

    def test_a_miss_on_a_waiting_count_restarts_it(self):
        chart, walk = begin("discrimination")
        walk = give(chart, walk, [RIGHT] * 15 + [LATE])
        assert walk.counters == (0, 0)

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
        after = chart.places[give(chart, walk, [mark, mark], given_).place]
        other = "heat" if ladder == "read" else "read"
        assert getattr(after, ladder) == getattr(before, ladder) - 1
        assert getattr(after, other) == getattr(before, other)

    def test_two_startled_answers_running_cool_the_cue_even_under_a_patient_rule(self):
        rule = {"family": "run", "n": 9, "back_in_row": 4, "back_in_last": None}
        chart, walk = begin("discrimination", rule=rule)
        for _ in range(3):
            walk = climb(chart, walk)
        heat = chart.places[walk.place].heat
        walk = give(chart, walk, [REACTED, REACTED], DECOY)
        assert chart.places[walk.place].heat == heat - 1


class TestStanding:
    def test_a_rung_met_today_is_working_and_secure_after_a_later_recheck(self):
        chart, walk = begin()
        walk = climb(chart, walk)
        assert status(chart, walk) == "working"
        walk = enter(chart, walk, "2026-03-04")
        assert (walk.phase, walk.place, walk.why) == ("check", 0, "check")
        walk = give(chart, walk, [RIGHT] * 5)
        assert (walk.phase, walk.place, walk.secure) == ("train", 1, 0)
        assert status(chart, walk) == "secure"

    def test_no_recheck_on_the_same_day(self):
        chart, walk = begin()
        walk = climb(chart, walk)
        assert enter(chart, walk, DAY) == walk

    def test_a_failed_recheck_steps_one_rung_back_to_working(self):
        chart, walk = begin()
        walk = climb(chart, walk, 3)
        walk = give(chart, enter(chart, walk, "2026-03-04"), [RIGHT, RIGHT, LATE])
        assert (walk.place, walk.met, walk.phase, walk.why) == (1, 1, "train", "failed")
        assert status(chart, walk) == "working"

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

    def test_held_rechecks_lead_back_up_to_the_last_rung_before_any_climbing(self):
        chart, walk = begin()
        walk = enter(chart, climb(chart, walk, 4), "2026-03-20")
        walk = give(chart, walk, [RIGHT] * 5)
        assert (walk.phase, walk.place, walk.move) == ("check", 3, "climb")
        walk = give(chart, walk, [RIGHT] * 5)
        assert (walk.phase, walk.place, walk.secure) == ("train", 4, 3)

    def test_after_two_steps_back_the_higher_rungs_no_longer_count_as_met(self):
        chart, walk = begin()
        walk = climb(chart, walk, 3)
        walk = give(chart, walk, [LATE] * 4)
        assert (walk.place, walk.met) == (1, 1)

    def test_a_lesson_dated_before_the_last_one_changes_nothing_on_entry(self):
        chart, walk = begin()
        walk = climb(chart, walk)
        assert enter(chart, walk, "2026-03-01") == walk


class TestByHand:
    def test_a_rung_set_by_hand_is_trained_and_the_one_below_counts_as_met(self):
        chart, walk = begin()
        walk = set_place(chart, walk, 3)
        assert (walk.place, walk.met, walk.why) == (3, 2, "set")
        assert give(chart, walk, [RIGHT] * 15).place == 4

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
        walk = give(chart, walk, [RIGHT] * 5)
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
@settings(max_examples=200, deadline=None)
def test_any_history_keeps_the_walk_within_its_chart(chart, rng):
    for walk in replay(chart, history(chart, rng)):
        assert 0 <= walk.place < len(chart.places)
        assert walk.met is None or 0 <= walk.met < len(chart.places)
        assert walk.secure is None or walk.met is not None
        assert walk.why in chart.words["why"]
        if walk.secure is not None:
            assert chart.places[walk.secure].height <= chart.places[walk.met].height
        said = suggest(chart, walk)
        assert said.cue and all(p.have <= p.need for p in said.progress)


@given(st.sampled_from(charts()), st.randoms(use_true_random=False))
@settings(max_examples=200, deadline=None)
def test_one_mark_moves_at_most_one_rung_while_training(chart, rng):
    ops = history(chart, rng)
    walks = replay(chart, ops)
    for op, old, new in zip(ops[1:], walks, walks[1:], strict=False):
        if op["do"] == "mark" and new.phase != "close":
            assert abs(chart.places[new.place].height - chart.places[old.place].height) <= 1
