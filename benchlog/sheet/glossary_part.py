"""The words and marks of the sheet, told once: states, outcomes, ±, support, sources."""

from __future__ import annotations

from reportlab.platypus import Flowable, Table

from benchlog.judge.verdict import AwardKind
from benchlog.measure.state import MEANING
from benchlog.sheet.flow import Cell, part, table
from benchlog.sheet.marks import LOOKS, AwardMark
from benchlog.sheet.text import para
from benchlog.sheet.typography import FACE, SMALL, Page
from benchlog.sheet.words import OUTCOME, SUPPORT
from benchlog.tasks.value_text import NO_ANSWER
from benchlog.trade.attribute import Support

PLUS_MINUS = (
    "The expanded uncertainty U = k·u for 95 %. u is the standard uncertainty by the GUM (JCGM "
    "100); k follows from the effective degrees of freedom: 1.96 where nothing limits them, and "
    "more where few repeats stand behind the value. U keeps two significant digits, the value "
    "ends where U ends."
)

SIGNS = (
    ("a to b", "An interval: as marked, as said, or an estimate between bounds that rests on "
               "assumptions. It has no best value, so it carries no ±."),
    ("~", "An estimate, or a figure that rests on one."),
    ("n", "How many readings make the value."),
    ("foot", "The pressure of the gauge’s foot on the sheet; only equal ones are compared."),
    ("in doubt", "A check of the instrument failed, and the readings were not put right."),
)  # fmt: skip

MIDDLE = 18.0
FIRST = 86.0

LETTERS = {Support.STANDARD: "S", Support.ENGINEERING: "E", Support.OPINION: "O"}

SOURCES = (
    ("published A", "the text of a standard, a government’s or a reviewed paper"),
    ("published B", "a trade body, a maker’s bulletin, trade press, a laboratory"),
    ("published C", "a forum or a blog: shows what people say, not that it is true"),
    ("common practice", "custom of the trade, without a source"),
    ("calculated", "worked out here from the figures shown"),
)


def glossary_part(page: Page) -> list[Flowable]:
    """Return the glossary."""
    states: list[list[Cell]] = [["State of a value", "Meaning"]]
    states += [[para(state.value, "label"), meaning] for state, meaning in MEANING.items()]
    states.append([para(NO_ANSWER, "label"), "nobody has answered here so far"])
    marks: list[list[Cell]] = [["", "Outcome", "Meaning"]]
    marks += [[AwardMark(kind, 4.2, LOOKS[kind]), para(kind.value, "label"), OUTCOME[kind]]
              for kind in AwardKind]  # fmt: skip
    signs: list[list[Cell]] = [["Sign", "Meaning"]]
    signs += [[para(sign, "label"), para(meaning, "cell")] for sign, meaning in SIGNS]
    backed: list[list[Cell]] = [["Support and source", "Meaning"]]
    backed += [[para(f"{LETTERS[support]}: {support.value}", "label"), meaning]
               for support, meaning in SUPPORT.items()]  # fmt: skip
    backed += [[para(source, "label"), meaning] for source, meaning in SOURCES]
    half = (page.content - MIDDLE) / 2
    pairs = [
        [_two(states, half), _two(signs, half, 44.0)],
        [table(marks, [20.0, 84.0, half - 104.0], small=True), _two(backed, half)],
    ]
    both = Table(
        pairs,
        colWidths=[half + MIDDLE, half],
        hAlign="LEFT",
        style=[
            ("FONT", (0, 0), (-1, -1), FACE, SMALL),
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ],
    )
    return [*part("Words and marks", 230), para(PLUS_MINUS, "gutter_cell", "±"), both]


def _two(rows: list[list[Cell]], width: float, first: float = FIRST) -> Table:
    return table(rows, [first, width - first], small=True)
