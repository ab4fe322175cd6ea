"""The video's description: who paid first, then what was cut open, how, and what was corrected."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from benchlog.errors import PublishRefused
from benchlog.judge.rules_file import set_version
from benchlog.tasks.chapters import Chapter, stamp
from benchlog.tasks.correction_lines import correction_lines
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_words
from benchlog.trade.specimen import Specimen

LIMIT = 5000
"""Characters that video platforms commonly take. Common practice, no source."""

LEFT_OUT = "Left out here for length: {parts}. It stands on the sheet and in the data."
REST_LEFT_OUT = (
    "Left out here for length: all but who paid. It stands on the sheet and in the data."
)
CANNOT_TELL = (
    "A bench cannot tell how finely a filter filters, how much dirt it holds or how long it lasts;"
    " what a maker claims is a claim. Only the pieces named here were cut."
)
Quote = Callable[[str], str]
"""Turns typed text into text that the markup leaves alone."""


@dataclass(frozen=True)
class Links:
    """Where the other outputs are published; "" leaves a link out."""

    sheet: str = ""
    data: str = ""
    method: str = ""


@dataclass(frozen=True)
class Description:
    """The text in both forms, and what was left out so that both keep within the limit."""

    plain: str
    markdown: str
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Part:
    """One part: its heading, "" for none, and its lines; `listed` ones are a list in Markdown.

    The higher its `loose`, the sooner it is left out; 0 stays.
    """

    name: str
    heading: str
    lines: tuple[str, ...]
    loose: int
    listed: bool = False


def describe(
    record: Record,
    chapters: tuple[Chapter, ...] = (),
    links: Links | None = None,
    *,
    ask: str = "",
    limit: int = LIMIT,
) -> Description:
    """Return the description; `ask` is a question to viewers, `limit` counts characters.

    What does not fit is left out whole, the least needed part first, and that is said in the text.
    Raises PublishRefused while it is not answered who paid, and when not even the disclosure fits.
    """
    links = links or Links()
    plain = _parts(record, chapters, links, ask, _one_line)
    marked = _parts(record, chapters, links, ask, _quoted)
    gone: list[str] = []
    order = sorted((p for p in plain if p.loose), key=lambda p: -p.loose)
    while True:
        texts = _whole(plain, gone, _as_plain), _whole(marked, gone, _as_markdown)
        if max(map(len, texts)) <= limit:
            return Description(*texts, tuple(gone))
        if not order:
            raise PublishRefused(
                f"Who paid alone is longer than {limit} characters.",
                "Choose a longer limit; the disclosure is never cut.",
            )
        gone.append(order.pop(0).name)


def _parts(
    record: Record, chapters: tuple[Chapter, ...], links: Links, ask: str, quote: Quote
) -> list[_Part]:
    lineup = record.lineup
    places = (("Sheet", links.sheet), ("Data", links.data), ("Method", links.method))
    corrections = correction_lines(record)
    parts = [
        _Part("who paid", "", (quote(disclosure_of(lineup).description),), 0),
        _Part("the question", "", (quote(lineup.question),), 3),
        _Part("the links", "", tuple(f"{n}: {_one_line(url)}" for n, url in places if url), 1),
        _Part(
            "the chapters",
            "Chapters",
            tuple(f"{stamp(c.seconds)} {quote(c.title)}" for c in chapters),
            2,
        ),
        _Part(
            "the specimens",
            "What was cut open",
            tuple(quote(_specimen(s)) for s in lineup.specimens),
            4,
            listed=True,
        ),
        _Part("the method", "How", tuple(quote(line) for line in _method(record)), 6),
        _Part(
            "the corrections",
            f"Corrections ({revision_words(record)})",
            tuple(quote(line) for line in corrections),
            5,
            listed=True,
        ),
        _Part("what a bench cannot tell", "", (quote(CANNOT_TELL),), 7),
        _Part("the question to viewers", "", (quote(ask),), 8),
    ]
    return [part for part in parts if any(part.lines)]


def _specimen(specimen: Specimen) -> str:
    price = f"{specimen.price} {specimen.currency}".strip() if specimen.price is not None else ""
    parts = (
        " ".join(filter(None, (specimen.maker, specimen.part_number))),
        f"lot {specimen.lot}" if specimen.lot else "lot not given",
        f"price {price}" if price else "price not given",
    )
    return f"{specimen.nickname}: {', '.join(filter(None, parts))}"


def _method(record: Record) -> tuple[str, ...]:
    rules, sequence = record.rules, record.sequence
    locks = record.locks
    locked = f", locked {locks[0].at:%Y-%m-%d}" if locks and not locks[0].after_cut else ""
    return (
        f"Sequence: {sequence.label}, version {sequence.version}. Rules: {rules.label}, version"
        f" {set_version(rules)}{locked}. Record: {revision_words(record)}, digest"
        f" {record.digest[:12]}.",
    )


def _whole(parts: list[_Part], gone: list[str], told: Callable[[_Part], str]) -> str:
    blocks = [told(part) for part in parts if part.name not in gone]
    if len(blocks) == 1 and gone:
        blocks.append(REST_LEFT_OUT)
    elif gone:
        blocks.append(LEFT_OUT.format(parts=", ".join(gone)))
    return "\n\n".join(blocks) + "\n"


def _as_plain(part: _Part) -> str:
    return "\n".join(filter(None, (part.heading, *part.lines)))


def _as_markdown(part: _Part) -> str:
    mark = "- " if part.listed else ""
    # Two spaces at a line's end keep the line break.
    lines = ("\n" if part.listed else "  \n").join(f"{mark}{line}" for line in part.lines)
    return f"## {part.heading}\n\n{lines}" if part.heading else lines


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _quoted(text: str) -> str:
    """Return text on one line in which Markdown sees no markup."""
    line = re.sub(r"([\\`*_\[\]<>#|~!])", r"\\\1", _one_line(text))
    return re.sub(r"^(\d+)([.)])|^([-+=])", r"\1\\\2\3", line)
