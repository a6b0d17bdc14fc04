"""What the marks say of a fencer, and of one lesson afterwards."""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta

import pytest

from cueladder.store.drills import drills_of
from tests.store.club import Browser, Club

DAY = date(2026, 3, 2)


def story(club, browser=None):
    """The fencer's story, by drill id; JSON that only Python can read is refused."""
    answer = (browser or club.browser).get(f"/api/fencers/{club.fencer}/story")
    assert answer.status_code == 200, answer.text

    def never(name):
        raise AssertionError(f"{name} is no JSON")

    told = json.loads(answer.text, parse_constant=never)
    return {each["drill"]["id"]: each for each in told["drills"]}


def after(club, lesson):
    answer = club.browser.get(f"/api/lessons/{lesson}/after")
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def teach(club, *marks, day=DAY, seconds=10, drill=None, **fields):
    """One lesson; each mark is ``(mark, how many, changes)``. Returns its id."""
    phone = club.phone()
    clock = datetime.fromisoformat(f"{day}T18:20:00+01:00")
    opening = phone.open(day.isoformat(), at=clock.isoformat())
    named = {"drill": drill[0], "chart": drill[1]} if drill else {}
    cues = []
    for mark, many, *changes in marks:
        for _ in range(many):
            clock += timedelta(seconds=seconds)
            told = {**named, **fields, **(changes[0] if changes else {})}
            cues.append(phone.cue(mark, at=clock.isoformat(), **told))
    club.browser.push(opening, *cues)
    return opening["lesson"]


def test_a_clean_run_is_told_with_what_it_shows(club):
    teach(club, ("correct", 14))
    told = story(club)[club.drill]["reliability"]
    assert (told["right"], told["trials"], told["percent"]) == (14, 14, 100)
    # success run: .05 ** (1/14)
    assert told["clean_run"]["reliability"] == pytest.approx(0.8074, abs=0.0001)
    assert told["words"] == (
        "At rung 1 of 5: 14 right in a row: we can be fairly sure of being right "
        "at least 8 times in 10."
    )


def test_with_a_slip_the_share_right_is_told_with_its_intervals(club):
    teach(club, ("correct", 8), ("late", 1), ("correct", 5), ("late", 1))
    told = story(club)[club.drill]["reliability"]
    assert (told["right"], told["trials"], told["clean_run"]) == (13, 15, None)
    assert told["wilson"] == pytest.approx([0.6212, 0.9626], abs=0.0002)
    assert told["exact"] == pytest.approx([0.5954, 0.9834], abs=0.0002)


def test_few_cues_get_no_percentage_and_say_so(club):
    teach(club, ("correct", 6), ("late", 1))
    told = story(club)[club.drill]
    assert told["reliability"]["percent"] is None
    assert "Too early to say" in told["reliability"]["words"]
    assert "Too early to say" in told["smallest_read"]["words"]
    assert told["smallest_read"]["rung"] is None
    assert told["pace"] is None
    assert "%" not in json.dumps(told)


def test_marks_are_counted_by_kind_without_voided_or_observed_ones(club):
    lesson = teach(club, ("correct", 3), ("correct", 2, {"tense": True}), ("late", 1), ("early", 1))
    phone = club.phone()
    phone.lesson, phone.n = lesson, 100
    slip = phone.cue("late")
    watcher = club.phone(club.add_coach("Runa", "observer"))
    watcher.lesson = lesson
    club.browser.push(slip, phone.void(slip))
    club.sign_in("Runa").push(*watcher.cues(7, "early"))
    told = story(club)[club.drill]["cues"]
    assert told["total"] == 7 and told["lessons"] == 1
    assert told["by_mark"] == {
        "correct": 3, "correct+tense": 2, "late": 1, "early": 1, "decoy": 0,
    }  # fmt: skip
    assert told["words"] == (
        "7 cues in 1 lesson: 3 right, 2 right but tense, 1 late and 1 early or too big."
    )


def test_the_standing_goes_from_working_to_secure_on_a_later_day(club):
    teach(club, ("correct", 15))
    told = story(club)[club.drill]
    assert told["standing"]["status"] == "working"
    assert told["standing"]["met"]["read"] == {"rung": 1, "of": 5, "label": "whole arm · slow"}
    teach(club, ("correct", 5), day=DAY + timedelta(days=7))
    told = story(club)[club.drill]
    assert told["standing"]["status"] == "secure"
    assert told["standing"]["words"] == "Secure up to rung 1 of 5: it held again on a later day."
    lessons = told["rungs"]["lessons"]
    assert [(x["day"], x["read"], x["heat"], x["status"], x["cues"]) for x in lessons] == [
        ("2026-03-02", 1, None, "working", 15),
        ("2026-03-09", 1, None, "secure", 5),
    ]


@pytest.mark.parametrize("lessons", [3, 4])
def test_trend_and_forecast_wait_for_four_lessons(club, lessons):
    for k in range(lessons):
        teach(club, ("correct", 22), day=DAY + timedelta(days=7 * k))
    told = story(club)[club.drill]
    early = lessons < 4
    assert (told["rungs"]["change"] is None) is early
    assert told["forecast"]["early"] is early
    assert ("Too early to say" in told["rungs"]["words"]) is early
    assert ("to go: likely" in told["forecast"]["words"]) is not early


def test_the_smallest_cue_read_follows_the_counts_of_each_rung(club):
    for place, right, wrong in ((0, 20, 0), (1, 20, 0), (2, 19, 1), (3, 2, 10)):
        teach(
            club, ("correct", right), ("late", wrong),
            place=place, day=DAY + timedelta(days=place),
        )  # fmt: skip
    told = story(club)[club.drill]["smallest_read"]
    assert told["by_rung"] == [[20, 20], [20, 20], [19, 20], [2, 12], [0, 0]]
    assert told["rung"] == 2
    assert told["low"] <= told["position"] <= told["high"]
    assert "“forearm · half speed”" in told["words"]
    assert story(club)[club.drill]["fiercest_held"] is None


def test_a_slip_counts_only_against_the_ladder_it_speaks_of(club):
    mixed = club.add_drill("discrimination")
    teach(club, ("correct", 8), ("late", 2), ("early", 3), drill=mixed, loud=True)
    teach(club, ("correct", 4), ("decoy", 5), drill=mixed, given="decoy", loud=True)
    teach(club, ("correct", 6, {"loud": False}), ("correct", 1, {"tense": True, "loud": True}),
          drill=mixed)  # fmt: skip
    told = story(club)[mixed[0]]
    # reading: attacks, early ones left out; tense ones and soft ones were read
    assert told["smallest_read"]["by_rung"][0] == [15, 17]
    # calm: late ones and soft ones left out; a tense answer was not held
    assert told["fiercest_held"]["by_rung"][0] == [12, 21]


def test_attacks_are_told_from_decoys_by_hits_and_false_alarms(club):
    mixed = club.add_drill("discrimination")
    teach(club, ("correct", 17), ("late", 2), ("early", 1), drill=mixed)
    teach(club, ("correct", 16), ("decoy", 4), drill=mixed, given="decoy")
    told = story(club)[mixed[0]]["detection"]
    counts = ("hits", "attacks", "false_alarms", "decoys")
    assert [told[name] for name in counts] == [18, 20, 4, 20]
    # z(18.5/21) - z(4.5/21) and minus half their sum
    assert told["sensitivity"] == pytest.approx(1.9705, abs=0.001)
    assert told["criterion"] == pytest.approx(-0.1934, abs=0.001)
    assert story(club, None)[mixed[0]]["drill"]["kind"] == "discrimination"


def test_loud_is_compared_with_soft_within_lessons_that_had_both(club):
    mixed = club.add_drill("discrimination")
    soft, loud = {"loud": False}, {"loud": True}
    for k in range(3):
        teach(club, ("correct", 8, soft), ("correct", 4, loud), ("late", 4, loud),
              drill=mixed, day=DAY + timedelta(days=k))  # fmt: skip
    teach(club, ("late", 30, soft), drill=mixed, day=DAY + timedelta(days=3))
    told = story(club)[mixed[0]]["heat"]
    assert told["cues"] == 48
    assert told["difference"] == pytest.approx(-0.5)
    assert told["verdict"] == "loud worse"
    assert told["odds_ratio"] is None  # infinite: no soft cue was missed
    assert story(club)[mixed[0]]["heat"]["words"].startswith("Loud cues still cost")


def test_without_loud_cues_nothing_is_compared(club):
    teach(club, ("correct", 12))
    assert story(club)[club.drill]["heat"] is None
    assert story(club)[club.drill]["detection"] is None


def test_the_pace_is_the_median_from_cue_to_cue_without_breaks(club):
    teach(club, ("correct", 8), seconds=9)
    teach(club, ("correct", 8), seconds=9, day=DAY + timedelta(days=1))
    teach(club, ("correct", 4), seconds=300, day=DAY + timedelta(days=2))
    told = story(club)[club.drill]["pace"]
    assert told == {"seconds": 9.0, "gaps": 14, "words": "About 9 seconds a cue."}


def test_cues_keep_their_words_when_a_rung_is_put_in_below_them(club):
    teach(club, ("correct", 12), place=4)
    document = drills_of(club.id)[0][1].document
    scales = json.loads(json.dumps(document["scales"]))
    scales["size"]["grades"].insert(0, "whole body")
    read = [{"size": 0, "speed": 0}] + [
        {**rung, "size": rung["size"] + 1} for rung in document["read"]
    ]
    body = {"document": {**document, "scales": scales, "read": read}}
    assert club.browser.send("PUT", f"/api/drills/{club.drill}", body).status_code == 200
    assert story(club)[club.drill]["smallest_read"]["by_rung"] == [[0, 0]] * 5 + [[12, 12]]


def test_a_story_is_told_within_the_club_and_to_those_signed_in(club):
    other = Club(club.app, "Kettenbach Blades")
    assert other.browser.get(f"/api/fencers/{club.fencer}/story").status_code == 404
    assert Browser(club.app).get(f"/api/fencers/{club.fencer}/story").status_code == 401
    lesson = teach(club, ("correct", 1))
    assert other.browser.get(f"/api/lessons/{lesson}/after").status_code == 404
    assert Browser(club.app).get(f"/api/lessons/{lesson}/after").status_code == 401
    assert club.browser.get("/api/lessons/nothing/after").status_code == 404


def test_a_fencer_without_lessons_has_an_empty_story(club):
    assert story(club) == {}


def test_after_a_lesson_it_says_what_held_and_what_broke(club):
    lesson = teach(
        club,
        ("correct", 15),
        ("correct", 3, {"place": 1}),
        ("late", 2, {"place": 1}),
        ("correct", 2),
    )
    (told,) = after(club, lesson)["drills"]
    assert (told["held"], told["broke"]) == (["rung 1"], ["rung 2"])
    assert [(r["rung"], r["cues"], r["right"], r["held"], r["broke"]) for r in told["rungs"]] == [
        ("rung 1", 17, 17, True, False),
        ("rung 2", 5, 3, False, True),
    ]
    assert told["cues"] == 22
    assert told["alone"] == "Ten small parries in front of a mirror."
    assert told["words"].startswith("22 cues: rung 1 held; rung 2 was still too hard.")


def test_the_next_lesson_starts_lower_the_longer_it_is_away(club):
    for k in range(3):
        marks = [("correct", 5, {"place": p}) for p in range(k)] + [("correct", 15, {"place": k})]
        lesson = teach(club, *marks, day=DAY + timedelta(days=k))
    (told,) = after(club, lesson)["drills"]
    rows = [(row["until"], row["read"]["rung"]) for row in told["next"]["starts"]]
    # met rung 3: the same rung for ten days, then one lower, then two, and never higher again
    assert rows == [("2026-03-14", 3), ("2026-04-01", 2), (None, 1)]
    assert told["next"]["due"] == "2026-03-14"
    assert told["next"]["recheck"] is True
    assert "by 14 March 2026" in told["words"]


def test_with_nothing_met_the_next_lesson_starts_with_the_first_rung(club):
    (told,) = after(club, teach(club, ("correct", 3)))["drills"]
    assert told["next"]["recheck"] is False
    assert told["next"]["due"] is None
    assert told["next"]["starts"][0]["cue"] == "whole arm · slow"


def test_a_recheck_that_failed_is_told_as_too_hard_for_now(club):
    teach(club, ("correct", 15), ("correct", 15, {"place": 1}))
    lesson = teach(club, ("late", 1, {"place": 1}), day=DAY + timedelta(days=2))
    (told,) = after(club, lesson)["drills"]
    assert (told["held"], told["broke"]) == ([], ["rung 2"])
    assert "too hard for now, so one step back" in told["rungs"][0]["words"]


def test_an_order_that_takes_turns_is_called_guessable(club):
    mixed = club.add_drill("discrimination")
    turns = [("correct", 1, {"given": given}) for given in ("attack", "decoy") * 10]
    (told,) = after(club, teach(club, *turns, drill=mixed))["drills"]
    assert told["order"]["guessable"] is True
    assert told["order"]["words"].startswith("Your order was guessable")
    (plain,) = after(club, teach(club, ("correct", 5), day=DAY + timedelta(days=1)))["drills"]
    assert plain["order"] is None


def test_loud_and_soft_of_one_lesson_are_compared_exactly(club):
    mixed = club.add_drill("discrimination")
    soft, loud = {"loud": False}, {"loud": True}
    lesson = teach(
        club, ("correct", 10, soft), ("correct", 3, loud), ("late", 7, loud), drill=mixed
    )
    (told,) = after(club, lesson)["drills"]
    assert (told["heat"]["soft"], told["heat"]["loud"]) == ([10, 10], [3, 10])
    # Fisher, two-sided: 2 * C(10,7) * C(10,0) / C(20,7)
    assert told["heat"]["p"] == pytest.approx(2 * 120 / 77520)
    assert told["heat"]["verdict"] == "loud worse"


def test_a_second_observer_is_laid_beside_the_coach(club):
    lesson = teach(club, ("correct", 8), ("late", 4))
    other = club.add_coach("Runa", "observer")
    watcher = club.phone(other)
    watcher.lesson = lesson
    browser = club.sign_in("Runa")
    browser.push(*watcher.cues(8), *watcher.cues(2, "late"))
    told = after(club, lesson)["drills"][0]["observers"][other]
    assert told["kappa"] is None
    assert "cannot be laid side by side" in told["words"]
    browser.push(*watcher.cues(2, "early"))
    told = after(club, lesson)["drills"][0]["observers"][other]
    # agreed on 10 of 12; by chance 64/144 + 8/144
    assert told["kappa"] == pytest.approx((10 / 12 - 0.5) / (1 - 0.5))


def test_a_drill_of_which_every_mark_was_voided_is_not_told(club):
    phone = club.phone()
    opening, cue = phone.open(DAY.isoformat()), phone.cue()
    club.browser.push(opening, cue, phone.void(cue))
    assert after(club, opening["lesson"])["drills"] == []
    assert story(club) == {}


@pytest.mark.parametrize(
    ("day", "at"),
    [
        ("9999-12-31", "9999-12-31T23:59:59.999-23:59"),
        ("0001-01-01", "0001-01-01T00:00:00+23:59"),
        ("2026-02-02", "2026-02-02T18:20:00"),
    ],
)
def test_a_clock_gone_wrong_breaks_no_story(club, day, at):
    phone = club.phone()
    events = [phone.open(day, at=at), *phone.cues(16, at=at)]
    club.browser.push(*events)
    assert story(club)[club.drill]["pace"] is None
    (told,) = after(club, events[0]["id"])["drills"]
    assert told["held"] == ["rung 1"]
    assert club.browser.get(f"/api/fencers/{club.fencer}/plan").status_code == 200
    link = club.browser.post(f"/api/fencers/{club.fencer}/links", {}).get_json()["url"]
    page = club.app.test_client().get("/p/" + link.rsplit("/", 1)[1])
    assert page.status_code == 200
    teach(club, ("correct", 5))
    assert club.app.test_client().get(f"/p/{link.rsplit('/', 1)[1]}/drill/1.svg").status_code == 200
