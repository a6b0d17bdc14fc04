"""What may leave the club singles nobody out."""

import json
import re

import numpy as np
import pytest

from cueladder.evidence.learning.cells import Gathering
from cueladder.evidence.learning.fit import fit
from cueladder.evidence.learning.numbers import (
    COUNTS,
    FEWEST_CUES,
    FEWEST_FENCERS,
    MOST_OF_ONE,
    numbers_of,
)
from cueladder.evidence.learning.predictive import beside
from cueladder.evidence.learning.whole import learn
from cueladder.rules import Kind
from cueladder.rules.settings import REENTRY
from tests.learning.planted import Size, planted, truth
from tests.learning.suggested import charts

FENCERS = 14


@pytest.fixture(scope="module")
def cells():
    """A club in which one fencer alone stands high, and one has far more lessons than the rest."""
    rng = np.random.default_rng(4)
    base = planted(truth(rng), Size(fencers=FENCERS, drills=1, lessons=12), rng)
    made = Gathering()
    for series in range(len(base.fencer)):
        day = 0
        for lesson in np.flatnonzero(base.series == series):
            day += int(7 * base.gap[lesson])
            cues = []
            for cell in np.flatnonzero(base.lesson == lesson):
                n, right = int(base.n[cell]), int(base.right[cell])
                cues += [(int(base.rung[cell]), False, k < right, False) for k in range(n)]
            made.add(series, str(base.drill[series]), day, cues)
    for week in range(60):
        high = [(9, False, k % 7 > 0, False) for k in range(25)]
        made.add(FENCERS, "own", week * 7, high)
    return made.cells()


@pytest.fixture(scope="module")
def figures(cells):
    return learn(Kind.SENSITIZATION, cells, [[30, 20]] * 4, 0.3, charts(), "usual", REENTRY, 1)


def test_the_file_holds_numbers_and_fixed_words_alone(figures):
    text = json.dumps(numbers_of([figures]))
    words = set(re.findall(r'"([^"]+)"', text))
    assert words <= {
        "format", "kinds", "kind", "sensitization", "marks", "setting", "usual", "quick", "strict",
        "figures", "gain", "loss", "fresh", "lapse", "people", "right", "rung", "gap",
        "lesson", "lessons_a_rung", "early_climbs",
    }  # fmt: skip


def test_a_fencer_alone_on_a_rung_is_not_in_it(cells, figures):
    told = numbers_of([figures])["kinds"][0]["right"]
    assert 9 in cells.rung
    assert any(row["group"] == 9 for row in figures["beside"]["rung"]), "the page has it"
    assert 9 not in [group for group, *_ in told["rung"]]


def test_no_group_rests_on_a_few_or_mostly_on_one(cells, figures):
    told = numbers_of([figures])["kinds"][0]["right"]["rung"]
    fencer = cells.fencer[cells.series[cells.lesson]]
    assert told
    for group, *_ in told:
        cues = np.bincount(fencer[cells.rung == group], cells.n[cells.rung == group])
        assert (cues > 0).sum() >= FEWEST_FENCERS
        assert cues.sum() >= FEWEST_CUES
        assert cues.max() <= MOST_OF_ONE * cues.sum()


def test_who_knows_all_others_still_does_not_learn_how_the_one_left_did(cells, figures):
    """The attack: everybody else's marks taken off what the file says of a rung."""
    told = numbers_of([figures])["kinds"][0]["right"]["rung"]
    fencer = cells.fencer[cells.series[cells.lesson]]
    tried = 0
    for group, count, share in told:
        at = cells.rung == group
        cues, right = (
            np.bincount(fencer[at], each[at], cells.fencers) for each in (cells.n, cells.right)
        )
        for one in np.flatnonzero(cues):
            others, theirs = cues.sum() - cues[one], right.sum() - right[one]
            # every number of own cues and right answers that leaves the file as it is
            mine = np.arange(max(0, count - COUNTS / 2 - others), count + COUNTS / 2 - others + 1)
            least = (share - 0.005) * (mine + others) - theirs
            most = (share + 0.005) * (mine + others) - theirs
            open_ = (most >= 0) & (least <= mine) & (mine > 0)
            shares = np.clip(np.array([least, most])[:, open_] / mine[open_], 0, 1)
            assert shares.min() <= right[one] / cues[one] <= shares.max()
            assert shares.max() - shares.min() > 0.05, "the one left is known to within 5 in 100"
            tried += 1
    assert tried > 20


def test_a_club_of_few_fencers_gives_nothing():
    rng = np.random.default_rng(4)
    few = planted(truth(rng), Size(fencers=6, drills=2, lessons=10), rng)
    told = learn(Kind.SENSITIZATION, few, [[0, 0]] * 4, 0.3, charts(), "usual", REENTRY, 1)
    assert told["known"] is not None
    assert numbers_of([told]) == {"format": 1, "kinds": []}


def test_the_fit_expects_what_was_marked_where_the_law_holds():
    rng = np.random.default_rng(6)
    found = fit(planted(truth(rng), Size(fencers=16, lessons=15), rng), rng)
    rows = [row for name in ("rung", "lesson") for row in beside(found, rng)[name]]
    inside = np.mean([row.low - 0.01 <= row.right <= row.high + 0.01 for row in rows])
    assert inside >= 0.75
