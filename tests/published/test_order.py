"""Gellermann's orders for two-choice training, counted.

Gellermann 1933, J. Genetic Psychology 42:206, as quoted by Fragaszy & Fragaszy 1978, Behavior
Research Methods 10:83 (the rules; the source was not re-read). The counts 252, 194 and 176 are
not printed there: they follow from rules 1 to 3 by enumeration.
"""

from itertools import product

import numpy as np

from cueladder.rules.order import after, compile_order


def longest_run(kinds):
    text = "".join("x" if k else "o" for k in kinds)
    return max(len(run) for run in text.replace("xo", "x o").replace("ox", "o x").split())


TENS = list(product((True, False), repeat=10))
FIVE_EACH = [t for t in TENS if sum(t) == 5]
THREE_IN_A_ROW = [t for t in FIVE_EACH if longest_run(t) <= 3]
TWO_IN_EACH_HALF = [t for t in THREE_IN_A_ROW if 2 <= sum(t[:5]) <= 3]


def given_by(order):
    """Every first block of ten the table can give, with its chance."""
    blocks = {(): (order.start, 1.0)}
    for _ in range(10):
        longer = {}
        for kinds, (state, chance) in blocks.items():
            p = order.states[state][0]
            for first, share in ((True, p), (False, 1 - p)):
                if share:
                    longer[(*kinds, first)] = (after(order, state, first), chance * share)
        blocks = longer
    return {kinds: chance for kinds, (_, chance) in blocks.items()}


def all_knowing(order):
    """Share right above one half for a fencer who knows the table, averaged over 1000 cues."""
    here = np.zeros(len(order.states))
    here[order.start] = 1.0
    total = 0.0
    for _ in range(1000):
        total += sum(w * abs(order.states[i][0] - 0.5) for i, w in enumerate(here) if w)
        nxt = np.zeros(len(here))
        for i in np.flatnonzero(here):
            p, a, b = order.states[i]
            nxt[a] += here[i] * p
            nxt[b] += here[i] * (1 - p)
        here = nxt
    return total / 1000


def test_a_table_with_five_of_each_gives_exactly_the_194_orders_of_rules_one_and_two():
    assert len(given_by(compile_order(3, 10, 5))) == 194
    assert set(given_by(compile_order(3, 10, 5))) == set(THREE_IN_A_ROW)


def test_the_table_in_use_gives_every_order_with_four_to_six_and_at_most_three_in_a_row():
    blocks = given_by(compile_order())
    assert set(blocks) == {t for t in TENS if 4 <= sum(t) <= 6 and longest_run(t) <= 3}
    assert len(blocks) == 462
    assert abs(sum(blocks.values()) - 1) < 1e-12


def test_all_of_gellermanns_176_orders_can_come_up():
    assert len(TWO_IN_EACH_HALF) == 176
    assert set(TWO_IN_EACH_HALF) <= set(given_by(compile_order()))


def test_balancing_every_ten_strictly_as_he_did_gives_more_away():
    assert all_knowing(compile_order(3, 10, 5)) > 1.3 * all_knowing(compile_order())
