"""Words that a bench cannot support, found as a remark is typed, with what may be said instead."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.attribute import Support
from benchlog.trade.resource_file import read_resource

FILE = Path("judging/wording.toml")
_ADVERBS = r"(?:(?:much|far|way|even|still|clearly|slightly|really|a\s+lot|a\s+bit)\s+)?"
_NUMBER = r"\d+(?:[.,\u00a0\u202f ]?\d+)*(?:k\b)?\s*"
_ENDS = re.compile(r"[.;!?\n]|\b(?:but|and\s+(?:I|we|it\s+does|indeed))\b", re.IGNORECASE)
"""What ends the words of whoever claims something."""


@dataclass(frozen=True)
class Wording:
    """One entry: phrases that are flagged, and what may stand in their place.

    `allowed_when` says what the record must hold for the word to stand; "" means never.
    """

    key: str
    said: tuple[str, ...]
    offered: str
    why: str
    support: Support
    source: str
    allowed_when: str = ""


@dataclass(frozen=True)
class Flag:
    """A stretch of a text, from `start` up to `end`, that claims more than a bench can show."""

    start: int
    end: int
    said: str
    offered: str
    why: str
    allowed_when: str = ""


@dataclass(frozen=True)
class Claimed:
    """Phrases after which the rest of a sentence is a claim told as a claim."""

    said: tuple[str, ...]


@cache
def load_claimed(root: Path | None = None) -> tuple[str, ...]:
    """Return the phrases of `[claimed]`, none where the file has no such table."""
    file = read_resource(FILE, root)
    return file.convert(file.single("claimed"), Claimed).said if "claimed" in file.tables else ()


@cache
def load_wording(root: Path | None = None) -> tuple[Wording, ...]:
    """Return the entries of resources/judging/wording.toml, or of such a file under `root`.

    Raises ResourceFault naming file, line, entry and field.
    """
    file = read_resource(FILE, root)
    file.only("wording", "claimed")
    found = []
    for entry in file.entries("wording"):
        wording = file.convert(entry, Wording)
        if not wording.said or not all(phrase.strip(" *") for phrase in wording.said):
            raise file.fault(entry, "said", "wants one phrase or more, of words")
        for field in ("offered", "why", "source"):
            if not getattr(wording, field).strip():
                raise file.fault(entry, field, "wants words")
        found.append(wording)
    return tuple(found)


def flagged(text: str, root: Path | None = None) -> tuple[Flag, ...]:
    """Return the stretches of a text that want other words, in their order; none overlap.

    Where two phrases begin at one place the longer counts; what a maker claims may be told.
    """
    claimed = load_claimed(root)
    hits = [
        Flag(m.start(), m.end(), m[0], one.offered, one.why, one.allowed_when)
        for one in load_wording(root)
        for phrase in one.said
        for m in _pattern(phrase).finditer(text)
        if not _is_told_as_claim(text[: m.start()], claimed)
    ]
    kept: list[Flag] = []
    for hit in sorted(hits, key=lambda flag: (flag.start, -flag.end)):
        if not kept or hit.start >= kept[-1].end:
            kept.append(hit)
    return tuple(kept)


def _is_told_as_claim(before: str, claimed: tuple[str, ...]) -> bool:
    """Whether the sentence that leads up to a word says whose claim it is."""
    sentence = _ENDS.split(before)[-1]
    return any(_pattern(phrase).search(sentence) for phrase in claimed)


@cache
def _pattern(phrase: str) -> re.Pattern[str]:
    """Return what finds a phrase as whole words, with spaces, and adverbs, between them."""
    found, joint = "", ""
    for word in phrase.split():
        any_of = re.escape(word).replace(r"\|", "|").replace(r"\*", r"\w*").replace(r"\#", _NUMBER)
        found += f"{joint}(?:{any_of})"
        joint = r"\s*" if word.endswith("#") else rf"\s+{_ADVERBS}"
    return re.compile(rf"(?<![\w.,]){found}(?!\w)", re.IGNORECASE)
