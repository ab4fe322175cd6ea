"""Typographers' signs in an entry, brought to those of a plain keyboard."""

from __future__ import annotations

_ONE_FOR_ONE = {
    **dict.fromkeys("‐‑‒–—−", "-"),
    **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\t", " "),
    **dict.fromkeys("″“”„", '"'),
    **dict.fromkeys("′’‘", "'"),
    **dict.fromkeys("µμ", "u"),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("≈∼～", "~"),
    **dict.fromkeys("·⋅", "*"),
    "²": "2",
    "³": "3",
    "₂": "2",
    "º": "°",
    "±": "+/-",
    "…": "...",
    "^": "",
    "℃": "°C",
    "℉": "°F",
}
_FRACTIONS = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_TABLE = str.maketrans({**_ONE_FOR_ONE, **{sign: f" {v}" for sign, v in _FRACTIONS.items()}})


def plain(text: str) -> str:
    """Return `text` with its dashes, primes, spaces and fractions as a plain keyboard has them.

    `3½″` becomes `3 1/2"`; two primes in a row become one inch mark; ends are trimmed.
    """
    return " ".join(text.translate(_TABLE).replace("''", '"').split(" ")).strip()
