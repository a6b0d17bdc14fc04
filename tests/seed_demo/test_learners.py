"""The simulated fencers do what their description says."""

from dataclasses import replace

import numpy as np
import pytest

from seed_demo.learners import (
    HEAT,
    MODELS,
    ON_TARGET,
    READ,
    STALL_EVERY,
    away,
    calm,
    draw,
    practise,
    select,
    tire,
)

N = 400
EVERYONE = np.ones(N, dtype=bool)
BOTTOM = np.zeros(N, dtype=int)


def group(model):
    return draw(model, N, np.random.default_rng(3))


def practised(model, cues=300, skill=READ):
    fencers, rng = group(model), np.random.default_rng(4)
    rung = BOTTOM
    for cue in range(cues):
        rung = np.full(N, cue * 4 // cues)
        held = calm(fencers, skill, rung)
        fencers = practise(fencers, skill, rung, held, EVERYONE, rng.random(N))
    return fencers


@pytest.mark.parametrize("model", MODELS)
def test_a_higher_rung_is_harder(model):
    for fencers in (group(model), practised(model)):
        chances = np.array([calm(fencers, READ, BOTTOM + r) for r in range(6)])
        assert (np.diff(chances, axis=0) < 0).all()


@pytest.mark.parametrize("model", MODELS)
def test_practice_raises_the_chance_at_every_rung_and_never_lowers_it(model):
    before, after = group(model), practised(model)
    for rung in range(4):
        gain = calm(after, READ, BOTTOM + rung) - calm(before, READ, BOTTOM + rung)
        assert (gain >= 0).all()
        assert gain.mean() > 0.05


@pytest.mark.parametrize("model", MODELS)
def test_practice_of_reading_leaves_calm_alone(model):
    before, after = group(model), practised(model)
    assert (calm(before, HEAT, BOTTOM) == calm(after, HEAT, BOTTOM)).all()


@pytest.mark.parametrize("model", MODELS)
def test_days_away_lower_the_chance_and_longer_lower_it_more(model):
    after, u = practised(model), np.random.default_rng(5).random(N)
    chances = [
        calm(away(after, np.full(N, days), u), READ, BOTTOM + 3).mean() for days in (0, 7, 42)
    ]
    assert chances[0] > chances[1] > chances[2]
    assert chances[0] == calm(after, READ, BOTTOM + 3).mean()


@pytest.mark.parametrize("model", MODELS)
def test_cues_tire_and_a_night_restores(model):
    rested = practised(model)
    tired = rested
    for _ in range(40):
        tired = tire(tired, EVERYONE)
    assert (calm(tired, READ, BOTTOM) < calm(rested, READ, BOTTOM)).all()
    morning = away(tired, np.ones(N, dtype=int), np.zeros(N))
    assert (morning.state.tired == 0).all()


def test_cues_off_target_teach_a_quarter():
    fencers = group("steady")
    on = practise(fencers, READ, BOTTOM, np.full(N, 0.9), EVERYONE, BOTTOM).state.skill[READ]
    for held in (ON_TARGET[0] - 0.01, ON_TARGET[1] + 0.01):
        off = practise(fencers, READ, BOTTOM, np.full(N, held), EVERYONE, BOTTOM).state.skill
        assert off[READ] == pytest.approx(on / 4)


def test_only_those_given_the_cue_learn_from_it():
    half = np.arange(N) < N // 2
    for model in MODELS:
        fencers = group(model)
        held = calm(fencers, READ, BOTTOM)
        after = practise(fencers, READ, BOTTOM, held, half, np.zeros(N)).state.skill[READ]
        assert (after[half] > 0).all()
        assert (after[~half] == 0).all()


def test_insight_comes_in_jumps():
    fencers = group("insight")
    chance = calm(fencers, READ, BOTTOM)
    seen = practise(fencers, READ, BOTTOM, chance, EVERYONE, np.zeros(N))
    unseen = practise(fencers, READ, BOTTOM, chance, EVERYONE, np.ones(N))
    assert (calm(seen, READ, BOTTOM) - chance).mean() > 0.15
    assert (calm(unseen, READ, BOTTOM) == chance).all()


def test_a_plateau_slows_learning_until_it_is_worked_through():
    fencers = group("plateau")
    level = np.full((2, N), STALL_EVERY - 1e-6)
    fencers = replace(fencers, state=replace(fencers.state, skill=level))
    gains = []
    for _ in range(70):
        after = practise(fencers, READ, BOTTOM, np.full(N, 0.9), EVERYONE, BOTTOM)
        gains.append((after.state.skill - fencers.state.skill)[READ].mean())
        fencers = after
    assert gains[30] == pytest.approx(gains[0] / 5)
    assert gains[-1] == pytest.approx(gains[0])


def test_part_of_a_plateau_learners_gain_is_gone_after_a_week():
    after = practised("plateau")
    week = away(after, np.full(N, 7), np.zeros(N))
    assert week.state.fresh[READ] == pytest.approx(after.state.fresh[READ] / 4)


def test_the_same_seed_draws_the_same_fencers():
    for model in MODELS:
        one, two = (draw(model, 5, np.random.default_rng(9)) for _ in range(2))
        other = draw(model, 5, np.random.default_rng(10))
        assert (one.traits.gain == two.traits.gain).all()
        assert (one.traits.gain != other.traits.gain).all()


def test_selected_fencers_are_the_same_fencers():
    fencers, which = practised("plateau"), np.array([3, 7])
    some = select(fencers, which)
    rung = np.array([2, 2])
    assert (calm(some, READ, rung) == calm(fencers, READ, BOTTOM + 2)[which]).all()


def test_an_unknown_model_is_refused_with_the_known_ones_named():
    with pytest.raises(ValueError, match="steady, insight, plateau"):
        draw("genius", 1, np.random.default_rng(1))
