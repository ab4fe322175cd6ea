"""One line of text in the order in which it is drawn, right-to-left words among it.

After the Unicode bidirectional algorithm (UAX #9: P2 and P3, W1 to W7, N1 and N2, I1, I2, L1 to
L4). Embeddings and overrides are dropped before; a name set between `ISOLATE` and `END` keeps its
own direction and lends none to its surroundings. Pairs of brackets get no rule of their own (N0).
"""

from __future__ import annotations

import re
import unicodedata

ISOLATE, END = "\u2068", "\u2069"
_HELD = "\ufffc"
_MIRRORED = {"(": ")", "[": "]", "{": "}", "<": ">", "«": "»", "‹": "›"}
_MIRRORED |= {right: left for left, right in _MIRRORED.items()}
_SPAN = re.compile(f"{ISOLATE}([^{ISOLATE}{END}]*){END}")


def isolated(name: str) -> str:
    """Return a name set apart, so that its direction stays its own."""
    return f"{ISOLATE}{name}{END}"


def drawn_order(text: str, *, sentence: bool = True) -> str:
    """Return one line in drawn order, from left to right.

    A `sentence` runs left to right, whatever it names; else its first letter decides.
    """
    held: list[str] = []

    def keep(span: re.Match[str]) -> str:
        held.append(drawn_order(span[1], sentence=False))
        return _HELD

    outer = _SPAN.sub(keep, text.replace(_HELD, " "))
    outer = outer.replace(ISOLATE, "").replace(END, "")
    order = _ordered(outer, 0 if sentence else _first_level(outer))
    spans = iter(_in_order(outer, order, held))
    return "".join(next(spans) if outer[n] == _HELD else _mirror(outer[n], lv) for n, lv in order)


def _in_order(outer: str, order: list[tuple[int, int]], held: list[str]) -> list[str]:
    """Return the held spans in the order in which they are drawn."""
    places = [n for n, c in enumerate(outer) if c == _HELD]
    return [held[places.index(n)] for n, _ in order if outer[n] == _HELD]


def _first_level(text: str) -> int:
    kinds = (unicodedata.bidirectional(c) for c in text)
    return int(next((k for k in kinds if k in ("L", "R", "AL")), "L") != "L")


def _mirror(character: str, level: int) -> str:
    return _MIRRORED.get(character, character) if level % 2 else character


def _ordered(text: str, base: int) -> list[tuple[int, int]]:
    """Return each character's place and level, in drawn order."""
    kinds = [unicodedata.bidirectional(c) or "L" for c in text]
    if base == 0 and not {"R", "AL", "AN"} & set(kinds):
        return [(n, 0) for n in range(len(text))]
    edge = "R" if base else "L"
    _weak(kinds, edge)
    _neutral(kinds, edge)
    # Blanks at the end have the line's level by now, as L1 asks: its edge counts as a neighbour.
    levels = [_level(kind, base) for kind in kinds]
    return [(n, levels[n]) for n in _reversed_runs(text, levels)]


def _weak(kinds: list[str], edge: str) -> None:
    """Settle marks, numbers and their separators (W1 to W7)."""
    _marks_and_arabic_numbers(kinds, edge)
    _separators(kinds)
    strong = edge
    for n, kind in enumerate(kinds):
        if kind in ("L", "R"):
            strong = kind
        elif kind == "EN" and strong == "L":
            kinds[n] = "L"
        elif kind not in ("EN", "AN"):
            kinds[n] = "ON"


def _marks_and_arabic_numbers(kinds: list[str], edge: str) -> None:
    """Settle what follows from the letter before (W1 to W3)."""
    strong = before = edge
    for n, found in enumerate(kinds):
        kind = before if found == "NSM" else found
        if kind in ("L", "R", "AL"):
            strong = kind
        elif kind == "EN" and strong == "AL":
            kind = "AN"
        kinds[n] = before = kind
    kinds[:] = ["R" if kind == "AL" else kind for kind in kinds]


def _separators(kinds: list[str]) -> None:
    """Give signs inside and beside numbers the numbers' kind (W4, W5)."""
    for n in range(1, len(kinds) - 1):
        pair = kinds[n - 1], kinds[n + 1]
        if (kinds[n] in ("ES", "CS") and pair == ("EN", "EN")) or (
            kinds[n] == "CS" and pair == ("AN", "AN")
        ):
            kinds[n] = pair[0]
    for way in (range(1, len(kinds)), range(len(kinds) - 2, -1, -1)):
        for n in way:
            if kinds[n] == "ET" and kinds[n - way.step] == "EN":
                kinds[n] = "EN"


def _neutral(kinds: list[str], edge: str) -> None:
    """Give what has no direction that of both its neighbours, else the line's (N1, N2)."""
    n = 0
    while n < len(kinds):
        if kinds[n] != "ON":
            n += 1
            continue
        end = n
        while end < len(kinds) and kinds[end] == "ON":
            end += 1
        left = "L" if (n and kinds[n - 1] == "L") or (not n and edge == "L") else "R"
        last = end == len(kinds)
        right = "L" if (not last and kinds[end] == "L") or (last and edge == "L") else "R"
        kinds[n:end] = [left if left == right else edge] * (end - n)
        n = end


def _level(kind: str, base: int) -> int:
    if base:
        return 1 if kind == "R" else 2
    return {"L": 0, "R": 1}.get(kind, 2)


def _reversed_runs(text: str, levels: list[int]) -> list[int]:
    """Return the places in drawn order (L2), each mark still behind its letter (L3)."""
    order = list(range(len(levels)))
    for level in range(max(levels, default=0), 0, -1):
        n = 0
        while n < len(order):
            end = n
            while end < len(order) and levels[order[end]] >= level:
                end += 1
            order[n:end] = reversed(order[n:end])
            n = max(end, n + 1)
    n = 0
    while n < len(order):
        end = n
        while end < len(order) and unicodedata.category(text[order[end]]) == "Mn":
            end += 1
        if n < end < len(order) and levels[order[n]] % 2:
            order[n : end + 1] = reversed(order[n : end + 1])
        n = end + 1
    return order
