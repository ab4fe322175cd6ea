from __future__ import annotations

from benchlog.sheet.dots import Dot, Panel
from benchlog.sheet.numbers import Spread
from benchlog.sheet.panel_words import panel_words
from benchlog.trade.attribute import Judged
from tests.sheet.sample_record import SPECIMENS

ALDER, BIRCH, BEECH = SPECIMENS[:3]


def said(*dots: Dot, meaningful: float | None = None, note: str = "") -> str:
    return panel_words(Panel("Wall", "millimeter", dots, Judged.MORE, meaningful, note))


def dot(value: float, low: float, high: float, **more: bool) -> Dot:
    return Dot(ALDER, Spread(value, low, high, "millimeter"), **more)


def test_number_with_its_interval() -> None:
    words = said(dot(0.5123, 0.5003, 0.5243))
    assert words == "Wall, mm. Alder: 0.512 plus or minus 0.012, from 0.500 to 0.524."


def test_exact_number_has_no_interval() -> None:
    assert said(dot(60, 60, 60)) == "Wall, mm. Alder: 60."


def test_below_nought_keeps_its_sign() -> None:
    assert "−1.00 plus or minus 0.12, from −1.12 to −0.88" in said(dot(-1, -1.12, -0.88))


def test_missing_value_says_why() -> None:
    assert said(Dot(BIRCH, None, "spoiled")).endswith("Birch: spoiled.")
    assert said(Dot(BIRCH, None)).endswith("Birch: no value.")


def test_estimate_says_so() -> None:
    assert said(dot(5, 4.5, 5.5, estimate=True)).endswith(
        "Alder: about 5, from 4.50 to 5.50, an estimate."
    )


def test_interval_without_a_best_value() -> None:
    assert said(dot(60, 20, 100, bounded=True)).endswith(
        "Alder: 20 to 100, an interval without a best value."
    )


def test_lopsided_interval_keeps_its_ends() -> None:
    assert "from 9.0 to 13.0" in said(dot(10, 9, 13)) or "from 9 to 13" in said(dot(10, 9, 13))


def test_band_and_note_are_told() -> None:
    words = said(dot(5, 4.9, 5.1), dot(6, 5.9, 6.1), meaningful=0.25, note="unlike feet")
    assert words.startswith("Wall, mm. unlike feet. ")
    assert words.endswith("Too close to call: a difference of less than 0.25 mm.")


def test_specimens_in_bench_order() -> None:
    words = said(*(Dot(s, None, "spoiled") for s in (ALDER, BIRCH, BEECH)))
    assert words.index("Alder") < words.index("Birch") < words.index("Copper beech")
