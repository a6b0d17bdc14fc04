"""Which rung of a changed ladder goes on where the old one was."""

import pytest

from cueladder.rules import Move, enter, fresh, rebase, set_place, suggestion
from cueladder.rules.place import same_rung
from tests.drills import changed_ladders

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
