import numpy as np
import pytest

from cueladder.evidence.claims.stranger import _lesson, stranger, teaches
from cueladder.evidence.strangers import UNTOLD, Prediction, Seen, Setting, fit, predict
from cueladder.evidence.teaching import NEW, candidates, changed, teaches_most, usual

ILSE, MAREK = Setting("Ilse", "right", "club"), Setting("Marek", "right", "club")


def chance(right_with_ilse: int, right_with_marek: int, asked: Setting, cues: int = 30) -> float:
    seen = [Seen(ILSE, right_with_ilse, cues), Seen(MAREK, right_with_marek, cues)]
    return predict(fit(seen), asked).share


def test_a_stranger_is_expected_between_the_settings_that_were_tried():
    new = Setting(None, "right", "club")
    assert chance(29, 15, MAREK) < chance(29, 15, new) < chance(29, 15, ILSE)


def test_few_cues_in_a_setting_are_drawn_to_the_fencers_mean():
    seen = [Seen(ILSE, 28, 40), Seen(MAREK, 0, 3)]
    pooled = predict(fit(seen), MAREK).share
    assert 0.2 < pooled < 28 / 40, "three slips are no proof of never"


def test_settings_that_differ_make_a_stranger_less_sure():
    new = Setting(None, "right", "club")
    alike = predict(fit([Seen(ILSE, 24, 30), Seen(MAREK, 24, 30)]), new)
    apart = predict(fit([Seen(ILSE, 30, 30), Seen(MAREK, 15, 30)]), new)
    assert apart.variance > 1.5 * alike.variance


def test_the_order_of_the_settings_makes_no_difference():
    seen = [Seen(ILSE, 20, 30), Seen(MAREK, 12, 25), Seen(changed(ILSE, "hand", "left"), 5, 10)]
    new = Setting(None, "left", "club")
    one, other = predict(fit(seen), new), predict(fit(seen[::-1]), new)
    assert one.counts == pytest.approx(other.counts)


@pytest.mark.parametrize("right", [0, 40])
def test_all_right_and_all_wrong_have_an_answer(right):
    found = predict(fit([Seen(ILSE, right, 40), Seen(MAREK, right, 40)]), Setting(None, None, None))
    assert np.isfinite(found.counts).all() and sum(found.counts) == pytest.approx(1.0)
    assert found.counts[5 if right else 0] == max(found.counts)


def test_of_the_likeliest_ranges_it_is_the_one_whose_chance_is_nearest_to_what_is_asked():
    found = Prediction(0.7, 0.02, (0.02, 0.06, 0.12, 0.2, 0.27, 0.33))
    assert found.first(0.8) == (3, 5, pytest.approx(0.8))
    assert found.first(0.3)[:2] == (5, 5), "2 to 3 has that chance too, and is less likely than 5"


def test_what_is_missing_from_a_setting_is_named():
    with pytest.raises(ValueError, match=r"^hand: say which it was"):
        fit([Seen(Setting("Ilse", None, "club"), 5, 10)])
    with pytest.raises(ValueError, match="11 is more than the 10 trials"):
        fit([Seen(ILSE, 11, 10)])
    with pytest.raises(ValueError, match="at least one setting"):
        fit([])
    with pytest.raises(ValueError, match="kind: choose one of coach, hand, place"):
        changed(ILSE, "weather", "rain")
    with pytest.raises(ValueError, match="kind: choose one of"):
        stranger([Seen(ILSE, 5, 10)], "weather")


@pytest.mark.parametrize(
    ("seen", "kind"),
    [
        ([], "coach"),
        ([Seen(ILSE, 40, 50)], "coach"),
        ([Seen(ILSE, 40, 50), Seen(MAREK, 9, 9)], "coach"),
        ([Seen(ILSE, 15, 19), Seen(MAREK, 15, 20)], "coach"),
        ([Seen(ILSE, 40, 50), Seen(MAREK, 40, 50)], "place"),
        ([Seen(ILSE, 40, 50)], "hand"),
    ],
)
def test_under_two_settings_or_too_few_cues_it_cannot_tell(seen, kind):
    told, found = stranger(seen, kind)
    assert (told.claim, found) == ("stranger.open", None)
    assert "cannot be told" in told.words and "10 cues" in told.words and "40 cues" in told.words
    assert teaches(seen, kind, {}) is None


def test_the_first_cues_with_a_stranger_are_told_with_their_chance():
    seen = [Seen(ILSE, 38, 40), Seen(MAREK, 25, 40)]
    told, found = stranger(seen, "coach")
    assert told.claim == "stranger.first" and found is not None
    low, high, chance = found.first(0.8)
    assert abs(chance - 0.8) < 0.15
    assert f"likely {low} to {high} right" in told.words
    assert stranger(seen, "hand")[0].claim == "stranger.first"
    assert "from the other hand" in stranger(seen, "hand")[0].words


def test_what_was_not_tried_yet_teaches_more_than_the_usual_setting():
    seen = [Seen(ILSE, 70, 80), Seen(MAREK, 25, 40)]
    told, ranked = teaches(seen, "hand", {})
    assert ranked[0].setting == changed(ILSE, "hand", "left")
    assert "from the other hand would teach most" in told.words
    at = {each.setting: each.saves for each in ranked}
    assert at[ranked[0].setting] > 0.05 > at[ILSE]
    assert "coach not met yet" in teaches(seen, "coach", {})[0].words


def test_a_lesson_that_would_teach_most_is_told_with_the_coachs_name():
    best = _lesson(changed(ILSE, "coach", "c7"), ILSE, {"c7": "Marek Dahl"})
    assert best == "A lesson with Marek Dahl would teach most about that."
    assert "in this place" in _lesson(changed(ILSE, "place", "hall"), ILSE, {})
    assert _lesson(ILSE, ILSE, {}).startswith("More cues in the usual setting")


def test_what_nobody_told_is_pooled_and_proves_no_second_setting():
    untold = changed(ILSE, "place", UNTOLD)
    seen = [Seen(ILSE, 30, 40), Seen(untold, 25, 40)]
    assert stranger(seen, "place")[0].claim == "stranger.open"
    assert UNTOLD not in {each.place for each in candidates(seen)}
    assert predict(fit(seen), untold).share < predict(fit(seen), ILSE).share
    no_hand = [Seen(changed(ILSE, "hand", UNTOLD), 30, 40), Seen(MAREK, 25, 30)]
    assert stranger(no_hand, "hand")[0].claim == "stranger.open"
    assert stranger(no_hand, "coach")[0].claim == "stranger.first"


def test_the_usual_setting_and_each_change_of_one_thing_are_offered():
    seen = [Seen(ILSE, 70, 80), Seen(MAREK, 25, 40)]
    assert usual(seen) == ILSE
    assert candidates(seen) == [
        ILSE,
        MAREK,
        changed(ILSE, "coach", NEW),
        changed(ILSE, "hand", "left"),
        changed(ILSE, "place", NEW),
    ]
    assert len(teaches_most(seen, changed(ILSE, "coach", None), candidates(seen))) == 5
