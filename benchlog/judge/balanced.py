"""Orders in which nobody is always first, and nobody always follows the same one.

For an even number of items one Williams square is balanced for carry-over: every ordered pair of
neighbours occurs once. For an odd number two squares are needed, and every pair occurs twice.
Source: E. J. Williams, Experimental designs balanced for the estimation of residual effects of
treatments, Australian Journal of Scientific Research A 2 (1949) 149-168.
"""

from __future__ import annotations

from random import Random


def williams(size: int) -> tuple[tuple[int, ...], ...]:
    """Return the rows of a design over 0 to `size` - 1: `size` rows, twice as many when odd.

    Every item stands at every place once in each square, that is in each run of `size` rows.
    """
    if size < 2:
        return tuple((item,) for item in range(size))
    zigzag = [0]
    for step in range(1, size):
        zigzag.append((zigzag[-1] + (step if step % 2 else -step)) % size)
    square = tuple(tuple((item + shift) % size for item in zigzag) for shift in range(size))
    if size % 2 == 0:
        return square
    return (*square, *(row[::-1] for row in square))


def balanced_orders(size: int, wanted: int, random: Random | None = None) -> list[tuple[int, ...]]:
    """Return `wanted` orders of 0 to `size` - 1 in which each is first about equally often.

    How often two items stand at the same place differs by one at most, or by one for each square
    begun and not ended. `random` shuffles the items and the rows inside each square; without it
    the orders are the design's own.
    """
    rows: list[tuple[int, ...]] = []
    names = list(range(size))
    if random:
        random.shuffle(names)
    while size and len(rows) < wanted:
        design = williams(size)
        for start in range(0, len(design), size):
            square = list(design[start : start + size])
            if random:
                random.shuffle(square)
            rows += square
    return [tuple(names[item] for item in row) for row in rows[:wanted]]
