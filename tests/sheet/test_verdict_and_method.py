from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchlog.judge.verdict import AwardKind
from benchlog.measure.reading import Reading
from benchlog.measure.state import MEANING, State
from benchlog.sheet.method_page import COVERS
from benchlog.sheet.words import OUTCOME, disclosure, price_of, who_paid
from benchlog.tasks.ports import Moment, Remark
from benchlog.trade.component import Component
from benchlog.trade.specimen import Paid
from tests.sheet.reading_back import plain, words, write
from tests.sheet.sample_record import LINEUP, SPECIMENS, START, record
from tests.sheet.worked_record import worked_words


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> str:
    return words(write(record(), tmp_path_factory.mktemp("verdict")))


def test_rule_and_reviewer_both_speak(sheet: str) -> None:
    for award in record().verdict.awards:
        assert award.reason in sheet
        assert award.would_change in sheet
    assert "Reviewer adds The thin one dented under a thumb." in sheet


def test_winners_are_named(sheet: str) -> None:
    assert "winner: Alder" in sheet
    assert "joint winners: Alder, Birch" in sheet
    assert "clearly behind: Copper beech from the market" in sheet


def test_scores_say_what_they_rest_on(sheet: str) -> None:
    assert "7.8 (7.1 to 8.5)" in sheet or "7.8 (7.0 to 8.4)" in sheet
    assert "on 2 of 3 attributes with 80 % of the weight" in sheet
    assert "without Valve material (not measured)" in sheet


def test_remark_on_one_specimen_prints(tmp_path: Path) -> None:
    own = Remark("m2", LINEUP, Component.CAN.value, "s2", "Paint came off.", START)
    more = replace(record(), remarks={(Component.CAN.value, "s2"): own})
    assert "Birch Paint came off." in words(write(more, tmp_path))


def test_thirty_remarks_all_print(tmp_path: Path) -> None:
    sample = record()
    remarks = {
        (c.value, s): Remark(f"{c}{s}", LINEUP, c.value, s, f"Said of {c.value} and {s or 'all'}. "
                             * 9, START)
        for c in Component for s in ("", "s1", "s2")
    }  # fmt: skip
    text = words(write(replace(sample, remarks=remarks), tmp_path))
    shown = {award.component.value for award in sample.verdict.awards}
    assert len(remarks) > 30
    for component, specimen in remarks:
        if component in shown:
            assert f"Said of {component} and {specimen or 'all'}." in text


def test_instruments_state_their_limits(sheet: str) -> None:
    assert "Bench scale scale 0.1 g ± 0.2 g" in sheet
    assert "0.01 mm ± 0.02 mm 2 kPa foot 16 mm across" in sheet


def test_rules_and_digest_are_whole(sheet: str) -> None:
    assert record().digest in sheet
    assert "“Bench rules”, version 3" in sheet
    assert "Can wall thickness can 1 0.05 mm E" in sheet
    assert "Exposed media area media 1 5 % E" in sheet
    assert "Pleats: Pleat count" in sheet[sheet.index("What is shown and not scored") :]


def test_rules_not_compared_are_listed(tmp_path: Path) -> None:
    sample = record()
    entries = tuple(replace(e, compared=e.subject != "can_wall") for e in sample.rules.entries)
    rules = replace(sample.rules, entries=entries)
    text = words(write(replace(sample, rules=rules), tmp_path))
    assert "Can wall thickness can 1" not in text
    assert "Can wall thickness." in text[text.index("Not compared by the rules") :]
    assert "Not compared by the rules" not in words(write(sample, tmp_path))


def test_only_bearing_rules_are_listed(tmp_path: Path) -> None:
    sample = record()
    strange = replace(sample.rules.entries[0], subject="never_asked")
    rules = replace(sample.rules, entries=(*sample.rules.entries, strange))
    text = words(write(replace(sample, rules=rules), tmp_path))
    assert "never asked" not in text
    asked = replace(sample.lineup, attributes=(*sample.lineup.attributes, "never_asked"))
    text = words(write(replace(sample, rules=rules, lineup=asked), tmp_path))
    assert "never asked" in text


def test_corrections_show_both_readings(sheet: str) -> None:
    at = sheet.index("Corrections")
    said = sheet[at : at + 400]
    for word in ("2026-03-07", "Alder", "Can wall thickness", "5.1 mm", "0.51 mm",
                 "misheard: a viewer saw 0.51 on the dial"):  # fmt: skip
        assert word in said


def test_withdrawn_reading_says_taken_back(tmp_path: Path) -> None:
    sample = record()
    back = Reading("r3", LINEUP, "s1", "can_wall", 1, State.NOT_MEASURED, "", START, 5.0,
                   reason="wrong tray", supersedes="r2", withdrawn=True)  # fmt: skip
    text = words(write(replace(sample, readings=(*sample.readings, back)), tmp_path))
    assert "0.51 mm taken back wrong tray" in text


def test_no_corrections_says_none(tmp_path: Path) -> None:
    text = words(write(replace(record(), readings=()), tmp_path))
    assert "Corrections None." in text


def test_date_is_the_latest_readings(tmp_path: Path) -> None:
    sample = record()
    late = replace(sample.readings[0], id="late", at=datetime(2026, 5, 30, 23, 0, tzinfo=UTC))
    assert "2026-05-30" in words(write(replace(sample, readings=(late,)), tmp_path))


def test_flagged_moments_carry_session_time(sheet: str) -> None:
    assert "0:12:34 spring jumped off the tray" in sheet


def test_very_many_moments_are_counted(tmp_path: Path) -> None:
    many = tuple(Moment(str(i), LINEUP, START, float(i), f"moment {i}") for i in range(100))
    assert "and 40 more in the record" in words(write(replace(record(), moments=many), tmp_path))


def test_states_and_marks_are_explained(sheet: str) -> None:
    for state, meaning in MEANING.items():
        assert f"{state.value} {meaning}" in sheet
    for kind in AwardKind:
        assert f"{kind.value} {OUTCOME[kind]}" in sheet


def test_usual_cautions_defer(sheet: str) -> None:
    for word in ("Cut edges", "Springs", "Used oil", "Alcohol vapour", "Pressure", "Local rules",
                 "vehicle maker’s handbook", "licensed practice"):  # fmt: skip
        assert word in sheet
    assert "Cut edges are sharp: gloves and eye shield." in sheet


def test_identity_keeps_three_origins(sheet: str) -> None:
    for said in ("Origin, box says Made in Aland", "Origin, can says ALAND",
                 "same plant as the box says", "bought by the reviewer: Corner Motor Shop",
                 "given by the maker: Greyharbour press desk", "8.90 EUR", "no price given",
                 "2026-02-11"):  # fmt: skip
        assert said in sheet


def test_one_kind_of_payer_is_short() -> None:
    sample = record(2)
    same = tuple(replace(s, paid=Paid.BOUGHT) for s in sample.lineup.specimens)
    lineup = replace(sample.lineup, specimens=same)
    assert disclosure(replace(sample, lineup=lineup)) == "Who paid: all bought by the reviewer"


def test_payer_without_a_name() -> None:
    assert who_paid(replace(SPECIMENS[0], giver="")) == "bought by the reviewer"
    assert price_of(SPECIMENS[0]) == "8.90 EUR"


def test_digest_says_what_it_covers() -> None:
    assert plain(COVERS) in worked_words()
