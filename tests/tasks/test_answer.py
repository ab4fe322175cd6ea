from __future__ import annotations

from decimal import Decimal

import pytest

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.state import State
from benchlog.tasks.answer import check_answer, range_text, understand
from tests.small_trade import LABEL, LENGTH, PLEATS, RATTLE, REMARK, WEIGHT


@pytest.mark.parametrize("typed", ["2", "stuck", "stuck on", "Stuck On", "s"])
def test_choice_by_number_key_label_or_beginning(typed: str) -> None:
    assert understand(LABEL, typed, inch=False).word == "stuck"


def test_unknown_choice_lists_the_answers() -> None:
    with pytest.raises(EntryRefused, match="1 printed on, 2 stuck on"):
        understand(LABEL, "3", inch=False)


@pytest.mark.parametrize(("typed", "word"), [("y", "yes"), ("1", "yes"), ("No", "no"), ("2", "no")])
def test_presence_is_yes_or_no(typed: str, word: str) -> None:
    assert understand(RATTLE, typed, inch=False).word == word


def test_text_is_kept_as_typed() -> None:
    assert understand(REMARK, "  tan, fine felt ", inch=False).word == "tan, fine felt"


def test_blank_is_never_an_answer() -> None:
    for each in (WEIGHT, LABEL, REMARK, RATTLE, PLEATS):
        with pytest.raises(EntryRefused, match="Nothing was typed"):
            understand(each, "   ", inch=False)


def test_tilde_makes_an_estimate() -> None:
    answer = understand(PLEATS, "~50", inch=False)
    assert answer.state is State.ESTIMATE
    assert answer.said is not None
    assert answer.said.value == Decimal(50)


def test_bare_number_outside_range_hints_at_the_unit() -> None:
    answer = understand(LENGTH, "55 mm", inch=False)
    with pytest.raises(AskAgain, match=r"Did you mean 55 in\?"):
        check_answer(LENGTH, answer, sure=True, reason="")


def test_range_is_shown_in_the_reviewers_units() -> None:
    assert range_text(WEIGHT, inch=False) == "usually 150 to 900 g"
    # 1 oz = 28.349523125 g (NIST SP 811): 150 g is 5.291 oz, 900 g is 31.75 oz
    assert range_text(WEIGHT, inch=True) == "usually 5.291 to 31.75 oz"
    assert range_text(REMARK, inch=False) == ""


@pytest.mark.parametrize("typed", ["-0.4 mm", "-5", "-3 to 4 mm", "~-2"])
def test_length_below_zero_is_refused(typed: str) -> None:
    with pytest.raises(EntryRefused, match="cannot be below zero"):
        understand(LENGTH, typed, inch=False)


def test_part_of_a_count_is_refused_unless_estimated() -> None:
    with pytest.raises(EntryRefused, match="no whole number"):
        understand(PLEATS, "52.5", inch=False)
    assert understand(PLEATS, "~52.5", inch=False).state is State.ESTIMATE
    assert understand(PLEATS, "52.0", inch=False).said is not None
