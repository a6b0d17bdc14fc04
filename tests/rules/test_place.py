"""Which rung of a changed ladder goes on where the old one was."""

import pytest

from cueladder.rules import Given, Mark, Move, enter, fresh, rebase, set_place, step, suggestion
from cueladder.rules.place import same_rung
from tests.drills import READ, changed_ladders, chart_of

OLD = ["arm", "forearm", "wrist", "fingers"]


@pytest.mark.parametrize(
    ("new", "where"),
    [
        (OLD, [0, 1, 2, 3]),
        (["arm", "half arm", "forearm", "wrist", "fingers"], [0, 2, 3, 4]),
        (["arm", "forearm", "the wrist alone", "fingers"], [0, 1, 2, 3]),
        (["a", "b", "c", "d"], [0, 1, 2, 3]),
        (["arm", "forearm", "fingers"], [0, 1, 1, 2]),
        (["arm", "forearm"], [0, 1, 1, 1]),
        (["forearm", "wrist", "fingers"], [0, 0, 1, 2]),
        (["still", "arm", "forearm", "wrist", "fingers"], [1, 2, 3, 4]),
    ],
    ids=[
        "nothing changed", "one put in", "one renamed", "all renamed", "one taken out",
        "cut short", "begins higher", "begins lower",
    ],
)  # fmt: skip
def test_a_fencer_goes_on_at_the_same_words_and_never_above_the_next_rung_left(new, where):
    assert [same_rung(OLD, new, rung) for rung in range(4)] == where


@pytest.mark.parametrize("versions", changed_ladders(), ids=lambda charts: charts[0].kind.value)
def test_a_walk_carried_over_gives_the_same_cue_with_a_fresh_count(versions):
    old, longer = versions[:2]
    for place in range(len(old.places)):
        walk = set_place(old, enter(old, fresh(old), "2026-03-02"), place)
        carried = rebase(old, longer, walk)
        assert suggestion(longer, carried).cue == suggestion(old, walk).cue
        assert (carried.move, carried.was, set(carried.counters)) == (Move.STAY, None, {0})
        assert suggestion(longer, carried).changed == ""


def test_a_changed_drill_keeps_what_was_met_and_begins_a_count_anew_where_the_rule_changed():
    old, *_, other = changed_ladders()[0]
    walk = enter(old, fresh(old), "2026-03-02")
    for _ in range(20):
        walk = step(old, walk, Given.ATTACK, Mark.CORRECT)
    carried = rebase(old, other, walk)
    assert (carried.rungs, carried.work, carried.counters) == (walk.rungs, 1, (0,))
    assert carried.why == "changed"


def test_a_count_goes_on_where_neither_the_rule_nor_the_words_of_its_rung_changed():
    old, longer = chart_of(), chart_of(read=READ[:4])
    walk = enter(old, fresh(old), "2026-03-02")
    for _ in range(20):
        walk = step(old, walk, Given.ATTACK, Mark.CORRECT)
    assert rebase(old, longer, walk).counters == walk.counters != (0,)


def test_a_fencer_at_the_top_goes_on_above_it_where_a_rung_is_added():
    short, longer = chart_of(read=READ[:2]), chart_of()
    walk = enter(short, fresh(short), "2026-03-02")
    for _ in range(30):
        walk = step(short, walk, Given.ATTACK, Mark.CORRECT)
    assert walk.why == "top"
    carried = rebase(short, longer, walk)
    assert (carried.met, carried.work, carried.counters) == (1, 2, (0,))
