from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchlog.tasks.browse import matching, readings_said
from benchlog.tasks.ports import LineupBrief
from tests.small_trade import small_lineup

LINEUP = small_lineup()
BRIEF = LineupBrief("l-1", LINEUP.name, LINEUP.created_at, LINEUP.specimens, 3, False)
OTHER = LineupBrief("l-2", "Winter pair", LINEUP.created_at, LINEUP.specimens[:1], 0, True)


def found(typed: str) -> list[str]:
    return [brief.id for brief in matching([BRIEF, OTHER], typed)]


def test_nothing_typed_matches_all_in_order() -> None:
    assert found("") == found("   ") == ["l-1", "l-2"]


def test_every_word_must_occur_somewhere() -> None:
    assert found("winter") == ["l-2"]
    assert found("quillmark 30") == ["l-1"]
    assert found("TALLOWBAY winter") == ["l-2"]
    assert found("quillmark winter") == []


def test_date_lot_and_rehearsal_are_found() -> None:
    assert found("2026-05-01") == ["l-1", "l-2"]
    assert found("l3") == ["l-1"]
    assert found("rehearsal") == ["l-2"]


def test_words_do_not_run_across_fields() -> None:
    assert found("mountamber") == []


@given(st.text(max_size=12))
def test_what_is_found_was_there_and_keeps_its_order(typed: str) -> None:
    kept = matching([BRIEF, OTHER], typed)
    assert [brief for brief in (BRIEF, OTHER) if brief in kept] == kept
    assert matching(kept, typed) == kept


def test_readings_are_said_in_words() -> None:
    assert [readings_said(n) for n in (0, 1, 278)] == [
        "nothing read yet", "1 reading", "278 readings",
    ]  # fmt: skip
