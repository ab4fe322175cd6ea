"""Arabic letters in the forms that they take beside each other.

The forms come from the Unicode character database: a presentation form's compatibility
decomposition names its letter and its place in the word (The Unicode Standard, section 9.2).
"""

from __future__ import annotations

import unicodedata
from functools import cache

_FORMS = range(0xFB50, 0xFDD0), range(0xFE70, 0xFEFD)
_LAM, _TATWEEL = "\u0644", "\u0640"


def joined(text: str) -> str:
    """Return text in reading order with every Arabic letter in its form; other text as it is."""
    if not any("\u0600" <= c <= "\u06ff" for c in text):
        return text
    letters = _ligatures(text)
    found = []
    for place, letter in enumerate(letters):
        before = _reaches_on(_neighbour(letters, place, -1))
        after = _reaches_back(_neighbour(letters, place, 1)) and _reaches_on(letter)
        which = {(True, True): "medial", (True, False): "final", (False, True): "initial"}
        form = which.get((before and _reaches_back(letter), after), "isolated")
        found.append(_forms().get((form, letter), letter if len(letter) == 1 else letter[0]))
    return "".join(found)


@cache
def _forms() -> dict[tuple[str, str], str]:
    """Return every presentation form by its place and its letter or two letters."""
    found: dict[tuple[str, str], str] = {}
    for block in _FORMS:
        for code in block:
            place, *parts = unicodedata.decomposition(chr(code)).split() or [""]
            letters = "".join(chr(int(part, 16)) for part in parts)
            if place.startswith("<") and (len(letters) == 1 or _is_lam_alef(letters)):
                found.setdefault((place.strip("<>"), letters), chr(code))
    return found


def _is_lam_alef(letters: str) -> bool:
    return len(letters) == 2 and letters[0] == _LAM and letters[1] in "\u0622\u0623\u0625\u0627"


def _ligatures(text: str) -> list[str]:
    letters: list[str] = []
    for character in text:
        if letters and _is_lam_alef(letters[-1] + character):
            letters[-1] += character
        else:
            letters.append(character)
    return letters


def _neighbour(letters: list[str], place: int, step: int) -> str:
    place += step
    while 0 <= place < len(letters) and unicodedata.category(letters[place][0]) == "Mn":
        place += step
    return letters[place] if 0 <= place < len(letters) else ""


def _reaches_on(letter: str) -> bool:
    return letter == _TATWEEL or ("initial", letter) in _forms()


def _reaches_back(letter: str) -> bool:
    return letter == _TATWEEL or ("final", letter) in _forms()
