"""Lessons in another setting are compared with the usual ones around them."""

import numpy as np

from cueladder.evidence.flanked import blocks, strata


def test_a_run_counts_where_a_usual_lesson_stands_on_either_side():
    assert blocks("uoouuou", "u", "o") == [((0, 3), (1, 2)), ((4, 6), (5,))]


def test_no_lesson_stands_beside_two_runs():
    assert blocks("uououou", "u", "o") == [((0, 2), (1,)), ((4, 6), (5,))]


def test_what_has_no_usual_lesson_before_or_after_it_is_left_out():
    assert blocks("ouo", "u", "o") == []


def test_lessons_of_a_third_are_passed_over():
    assert blocks("uxoxu", "u", "o") == [((0, 4), (2,))]


def test_a_steady_gain_cancels_out():
    lesson = np.repeat([0, 1, 2], 10)
    right = np.r_[np.arange(10) < 4, np.arange(10) < 6, np.arange(10) < 8]
    rows = strata(blocks("uou", "u", "o"), lesson, np.zeros(30, int), right)
    assert rows == [[12, 20, 6, 10]]


def test_rungs_that_only_one_of_them_gave_are_left_out():
    lesson, place = np.array([0, 1, 1, 2]), np.array([0, 0, 1, 0])
    rows = strata(blocks("uou", "u", "o"), lesson, place, np.array([True, False, True, True]))
    assert rows == [[2, 2, 0, 1]]
