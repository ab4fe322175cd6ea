"""Codes for blind judging: two letters that say nothing of whose part it is, nor of any order."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random

from benchlog.judge.balanced import balanced_orders
from benchlog.trade.specimen import Specimen

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which read as digits."""


def codes_for(specimens: Iterable[Specimen], used: Iterable[str], random: Random) -> dict[str, str]:
    """Return a code for every specimen id.

    No two codes of a round share their first letter, so that one may be called by it; none begins
    as a nickname does, and none of `used` comes again.
    """
    every = list(specimens)
    taken = {specimen.nickname.strip()[:1].upper() for specimen in every}
    spent = set(used)
    firsts = random.sample([letter for letter in LETTERS if letter not in taken], len(every))
    codes = {}
    for specimen, first in zip(every, firsts, strict=True):
        seconds = [c for c in LETTERS if c != first and first + c not in spent]
        codes[specimen.id] = first + random.choice(seconds)
    return codes


def orders_for(codes: Iterable[str], rounds: int, random: Random) -> tuple[tuple[str, ...], ...]:
    """Return the order of codes for each round, balanced so that nobody is always first."""
    every = list(codes)
    orders = balanced_orders(len(every), rounds, random)
    return tuple(tuple(every[item] for item in order) for order in orders)
