"""The video's description: who paid first, within the limit, and what was left out is said."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchlog.errors import PublishRefused
from benchlog.tasks.chapters import Chapter, chapters_of
from benchlog.tasks.description import LIMIT, REST_LEFT_OUT, Links, describe
from benchlog.tasks.disclosure import disclosure_of
from benchlog.tasks.footage import timeline_of
from benchlog.trade.specimen import Paid
from tests.tasks.sample_records import sample_record
from tests.tasks.video_scenes import filmed

LINKS = Links("https://example.org/sheet.pdf", "https://example.org/data.zip", "")


def test_disclosure_is_the_first_line() -> None:
    record = sample_record()
    told = describe(record)
    first = disclosure_of(record.lineup).description
    assert told.plain.splitlines()[0] == first
    assert told.markdown.replace("\\", "").splitlines()[0] == first


def test_everything_asked_for_is_in_it() -> None:
    record = filmed(60)
    chapters = chapters_of(record, timeline_of(record))
    told = describe(sample_record(), chapters, LINKS, ask="Which would you try?")
    for text in (told.plain, told.markdown.replace("\\", "")):
        for specimen in record.lineup.specimens:
            assert f"{specimen.nickname}: {specimen.maker} {specimen.part_number}" in text
            assert f"lot {specimen.lot}" in text
            assert f"price {specimen.price} {specimen.currency}" in text
        assert "version " in text
        assert record.digest[:12] in text
        assert LINKS.sheet in text
        assert LINKS.data in text
        assert f"0:00 {chapters[0].title}" in text
        assert "Corrections (draft, not published)" in text
        assert text.rstrip().endswith("Which would you try?")
    assert told.left_out == ()


def test_links_that_are_not_given_are_left_out() -> None:
    assert "Method:" not in describe(sample_record(), links=LINKS).plain
    assert "Sheet:" not in describe(sample_record()).plain


@settings(max_examples=40, deadline=None)
@given(st.integers(250, LIMIT), st.integers(0, 40))
def test_limit_holds_and_what_is_missing_is_said(limit: int, count: int) -> None:
    chapters = tuple(Chapter(10.0 * n, f"Station {n}") for n in range(count))
    told = describe(sample_record(), chapters, LINKS, ask="And you?", limit=limit)
    for text in (told.plain, told.markdown):
        assert len(text) <= limit
        assert text.replace("\\", "").startswith("Who paid: ")
    assert ("Left out here for length" in told.plain) is bool(told.left_out)
    named = all(part in told.plain for part in told.left_out)
    assert named or told.plain.rstrip().endswith(REST_LEFT_OUT)


def test_least_needed_part_goes_first() -> None:
    whole = describe(sample_record(), links=LINKS, ask="And you?")
    shorter = describe(sample_record(), links=LINKS, ask="And you?", limit=len(whole.markdown) - 1)
    assert shorter.left_out[0] == "the question to viewers"
    assert "who paid" not in shorter.left_out


def test_disclosure_is_never_cut() -> None:
    with pytest.raises(PublishRefused, match="Who paid alone is longer than 50"):
        describe(sample_record(), limit=50)


def test_open_disclosure_blocks_the_description() -> None:
    record = sample_record()
    first, *others = record.lineup.specimens
    specimens = (replace(first, paid=Paid.UNANSWERED), *others)
    with pytest.raises(PublishRefused, match="Nobody said"):
        describe(replace(record, lineup=replace(record.lineup, specimens=specimens)))


@settings(max_examples=40, deadline=None)
@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=60))
def test_typed_text_adds_no_lines_and_no_markup(question: str) -> None:
    record = sample_record()
    plain = describe(replace(record, lineup=replace(record.lineup, question="x"))).markdown
    told = describe(replace(record, lineup=replace(record.lineup, question=question))).markdown
    if question.split():
        assert len(told.split("\n")) == len(plain.split("\n"))
        line = told.split("\n")[2]
        assert not line.startswith(("#", "- ", "+ ", ">", "* "))
        assert line.replace("\\", "") == " ".join(question.split()).replace("\\", "")


def test_price_or_lot_not_given_is_said() -> None:
    record = sample_record()
    first, *others = record.lineup.specimens
    specimens = (replace(first, price=None, lot=""), *others)
    told = describe(replace(record, lineup=replace(record.lineup, specimens=specimens))).plain
    assert "lot not given, price not given" in told
