"""A second person marks along: paired by the number of the cue, told in plain words."""

import pytest

KINDS = ["correct"] * 13 + ["late"] * 5 + ["early"] * 2
THEIRS = ["correct"] * 10 + ["late"] * 3 + ["late"] * 4 + ["correct"] + ["early"] * 2


@pytest.fixture
def lesson(club):
    """A lesson of twenty cues, and a second person's phone in it."""
    phone = club.phone()
    cues = [phone.open(), *(phone.cue(mark) for mark in KINDS)]
    club.browser.push(*cues)
    watcher = club.phone(club.add_coach("Runa", "observer"))
    watcher.lesson = phone.lesson
    return phone, cues[1:], watcher


def told(club, phone, watcher):
    drills = club.browser.get(f"/api/lessons/{phone.lesson}/after").get_json()["drills"]
    return drills[0]["observers"].get(watcher.coach)


def seen(watcher, marks, start=1):
    return [watcher.cue(mark, number=n) for n, mark in enumerate(marks, start)]


def test_agreement_is_worked_out_over_the_pairs_of_the_same_number(club, lesson):
    phone, _, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, THEIRS))
    found = told(club, phone, watcher)
    # 16 of 20 alike; by chance (13·11 + 5·7 + 2·2)/400
    assert (found["observed"], found["chance"]) == pytest.approx((0.8, 0.455))
    # twenty cues are too few for kappa and its range
    assert found["kappa"] is found["low"] is found["high"] is None
    assert (found["pairs"], found["alone"]) == (20, [0, 0])
    assert [each["number"] for each in found["apart"]] == [11, 12, 13, 18]
    first = found["apart"][0]
    assert (first["coach"], first["second"]) == ("correct", "late")
    assert first["cue"] and first["rung"].startswith("rung ")


def test_cues_that_one_of_them_missed_are_left_out_and_said(club, lesson):
    phone, _, watcher = lesson
    marks = seen(watcher, THEIRS)
    club.sign_in("Runa").push(*marks[:5], *marks[8:], watcher.cue("late", number=33))
    found = told(club, phone, watcher)
    assert (found["pairs"], found["alone"]) == (17, [3, 1])
    assert found["words"].endswith(
        "Left out: 3 cues marked by the coach only and 1 cue marked by the second person only."
    )
    assert [each["number"] for each in found["apart"]] == [11, 12, 13, 18]


def test_a_cue_the_coach_takes_back_later_moves_no_other_pair(club, lesson):
    phone, cues, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, THEIRS))
    club.browser.push(phone.void(cues[3]))
    found = told(club, phone, watcher)
    assert (found["pairs"], found["alone"]) == (19, [0, 1])
    assert [each["number"] for each in found["apart"]] == [11, 12, 13, 18]


def test_a_mark_corrected_later_is_compared_as_corrected(club, lesson):
    phone, cues, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, THEIRS))
    club.browser.push(phone.correct(cues[10], "late"))
    found = told(club, phone, watcher)
    assert [each["number"] for each in found["apart"]] == [12, 13, 18]


def test_a_number_marked_twice_counts_as_marked_last(club, lesson):
    phone, _, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, THEIRS), watcher.cue("correct", number=11))
    assert [each["number"] for each in told(club, phone, watcher)["apart"]] == [12, 13, 18]


def test_few_pairs_give_no_share_and_say_so(club, lesson):
    phone, _, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, THEIRS[:4]))
    found = told(club, phone, watcher)
    assert found["pairs"] == 4
    assert "Too early to say: only 4 cues" in found["words"]


def test_numbers_that_never_meet_are_no_pairs(club, lesson):
    phone, _, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, THEIRS, start=50))
    found = told(club, phone, watcher)
    assert found["kappa"] is None and found["pairs"] == 0
    assert found["words"] == "No cue of this drill was marked by both."


def test_two_coaches_on_one_lesson_do_not_mix(club, lesson):
    phone, cues, _watcher = lesson
    before = club.browser.get("/api/standings").get_json()["standings"][0]["walk"]
    mistaken = club.phone(club.add_coach("Odile", "coach"))
    mistaken.lesson = phone.lesson
    reply = club.sign_in("Odile").push(
        *mistaken.cues(15, "late"), mistaken.void(cues[0]), mistaken.set_rung(2)
    )
    assert [each["status"] for each in reply["results"]] == ["stored"] * 16 + ["refused"]
    assert reply["lessons"] == reply["standings"] == []
    assert club.browser.get("/api/standings").get_json()["standings"][0]["walk"] == before
    found = club.browser.get(f"/api/lessons/{phone.lesson}/after").get_json()["drills"][0]
    assert found["cues"] == 20 and found["rungs"][0]["by_mark"]["late"] == 5
    assert found["observers"][mistaken.coach]["pairs"] == 0


def next_cues(club, phone, browser=None):
    return (browser or club.browser).get(f"/api/lessons/{phone.lesson}/cues").get_json()


def test_whoever_marks_along_is_told_the_coachs_next_cue_and_no_mark(club, lesson):
    phone, cues, _ = lesson
    runa = club.sign_in("Runa")
    assert next_cues(club, phone, runa) == {"drill": club.drill, "numbers": {club.drill: 21}}
    club.browser.push(phone.void(cues[-1]), phone.cue("late", instead_of=cues[-2]["id"]))
    assert next_cues(club, phone, runa)["numbers"] == {club.drill: 20}


def test_the_next_cue_is_the_coachs_whatever_the_second_person_marks(club, lesson):
    phone, _, watcher = lesson
    club.sign_in("Runa").push(*seen(watcher, ["late"] * 30))
    assert next_cues(club, phone)["numbers"] == {club.drill: 21}


def test_before_the_first_mark_there_is_no_drill_and_no_number(club):
    phone = club.phone()
    club.browser.push(phone.open())
    assert next_cues(club, phone) == {"drill": None, "numbers": {}}
