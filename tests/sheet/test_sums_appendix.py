from __future__ import annotations

from pathlib import Path

from benchlog.settings import METRIC
from benchlog.tasks.figure_view import sum_of
from benchlog.tasks.sheet_wishes import SheetWishes
from tests.sheet.reading_back import outline, plain, words, write
from tests.sheet.sample_record import record
from tests.sheet.worked_record import worked, worked_words

WITH_SUMS = SheetWishes(METRIC, sums=True)


def appendix() -> str:
    text = worked_words(WITH_SUMS)
    return text[text.index("The sums Every figure") :]


def test_sums_stand_only_where_asked() -> None:
    assert "The sums" not in worked_words()
    assert "Source:" not in worked_words()
    assert worked_words(WITH_SUMS).startswith(worked_words()[:40])


def test_every_figure_shows_its_formula_and_source() -> None:
    text = appendix()
    kinds = {f.kind for f in worked().figures.values() if not f.refusal}
    assert len(kinds) > 35
    for kind in kinds:
        assert plain(kind.formula) in text, kind.key
        assert plain(kind.source) in text, kind.key


def test_every_budget_shows_its_lines() -> None:
    sample, text, lines = worked(), appendix(), 0
    for (key, specimen), figure in sample.figures.items():
        if figure.refusal:
            continue
        one = sum_of(sample, key, specimen, METRIC)
        for row in one.rows:
            if not row.inset and row.spread != "exact" and row.value:
                said = " ".join(filter(None, (
                    row.value, row.u, row.spread, row.freedom, row.sensitivity, row.contribution,
                    row.share_text,
                )))  # fmt: skip
                assert plain(said) in text, (key, said)
                lines += 1
        if "effective" in one.coverage:
            assert plain(one.coverage) in text, key
    assert lines > 150


def test_inputs_name_value_and_instrument() -> None:
    text = appendix()
    assert (
        "Read with Calliper, 150 mm: Can outside diameter; Ball-foot micrometer: Can wall" in text
    )
    at = text.index("The inputs of the sums")
    assert "Can wall thickness Amber 0.3815 ± 0.0062 mm" in text[at:]
    assert "permissible error of Ball-foot micrometer 0.0023 mm, rectangular, ν ∞" in text[at:]


def test_assumptions_are_told() -> None:
    text = appendix()
    told = {a for f in worked().figures.values() if not f.refusal for a in f.assumed}
    assert told
    for sentence in told:
        assert plain(sentence) in text


def test_hand_made_figures_have_sums_too(tmp_path: Path) -> None:
    path = write(record(), tmp_path, wishes=WITH_SUMS)
    assert "length × (width − hidden by both end caps)" in words(path)
    assert (0, "The sums") in [(level, title) for level, title, _ in outline(path)]
