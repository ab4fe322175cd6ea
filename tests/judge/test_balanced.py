"""Orders in which nobody is always first, held to what Williams' designs promise.

Source: E. J. Williams, Australian Journal of Scientific Research A 2 (1949) 149-168: an even
number of treatments needs one square for balance of neighbours, an odd number two.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise, permutations
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.judge.balanced import balanced_orders, williams

sizes = st.integers(1, 6)
seeds = st.none() | st.integers(0, 2**32)


@pytest.mark.parametrize("size", range(2, 9))
def test_every_neighbour_pair_is_equally_frequent(size: int) -> None:
    rows = williams(size)
    pairs = Counter(pair for row in rows for pair in pairwise(row))
    assert len(rows) == (size if size % 2 == 0 else 2 * size)
    assert set(pairs) == set(permutations(range(size), 2))
    assert set(pairs.values()) == {1 if size % 2 == 0 else 2}


@pytest.mark.parametrize("size", range(1, 9))
def test_every_square_is_latin(size: int) -> None:
    rows = williams(size)
    for start in range(0, len(rows), size):
        for column in zip(*rows[start : start + size], strict=True):
            assert sorted(column) == list(range(size))


def test_design_for_four_is_the_published_one() -> None:
    """The zigzag 0 1 n-1 2 ... of the paper, written out for four by hand."""
    assert williams(4) == ((0, 1, 3, 2), (1, 2, 0, 3), (2, 3, 1, 0), (3, 0, 2, 1))


@given(sizes, st.integers(0, 40), seeds)
def test_nobody_is_always_first(size: int, wanted: int, seed: int | None) -> None:
    orders = balanced_orders(size, wanted, None if seed is None else Random(seed))
    assert len(orders) == wanted
    assert all(sorted(order) == list(range(size)) for order in orders)
    for place in range(size):
        seen = Counter(dict.fromkeys(range(size), 0))
        seen.update(order[place] for order in orders)
        assert max(seen.values()) - min(seen.values()) <= 1


@given(st.integers(2, 6), st.integers(1, 4), seeds)
def test_whole_designs_balance_neighbours(size: int, designs: int, seed: int | None) -> None:
    wanted = len(williams(size)) * designs
    orders = balanced_orders(size, wanted, None if seed is None else Random(seed))
    pairs = Counter(pair for order in orders for pair in pairwise(order))
    assert len(set(pairs.values())) == 1
    assert len(pairs) == size * (size - 1)


@given(sizes, st.integers(0, 20), st.integers(0, 2**32))
def test_same_seed_gives_the_same_orders(size: int, wanted: int, seed: int) -> None:
    first, again = (balanced_orders(size, wanted, Random(seed)) for _ in range(2))
    assert first == again


def test_seeds_give_different_orders() -> None:
    found = {tuple(balanced_orders(4, 4, Random(seed))) for seed in range(20)}
    assert len(found) > 15


def test_nobody_to_order_is_no_order() -> None:
    assert balanced_orders(0, 3) == []
