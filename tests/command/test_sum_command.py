"""The sum of one number, asked for on the command line."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from benchlog.__main__ import main
from tests.tasks.sample_records import pictured_shelf

LINEUP = "three for one mount"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return pictured_shelf(tmp_path_factory.mktemp("summed") / "shelf")


@pytest.fixture
def ask(shelf: Path, capsys: pytest.CaptureFixture[str]):
    def asked(*words: str) -> list[dict[str, Any]]:
        capsys.readouterr()
        assert main(["--shelf", str(shelf), "sum", LINEUP, *words]) == 0
        return json.loads(capsys.readouterr().out)

    return asked


@pytest.fixture
def refused(shelf: Path, capsys: pytest.CaptureFixture[str]):
    def asked(*words: str) -> str:
        capsys.readouterr()
        assert main(["--shelf", str(shelf), "sum", LINEUP, *words]) == 1
        said = capsys.readouterr()
        assert said.out == ""
        assert "Traceback" not in said.err
        return said.err

    return asked


def test_all_specimens_are_told_in_bench_order(ask) -> None:
    told = ask("exposed_area")
    assert [one["specimen"] for one in told] == ["Amber", "Cobalt", "Moss"]
    assert {one["figure"] for one in told} == {"exposed_area"}


def test_sum_holds_formula_inputs_readings_and_instruments(ask) -> None:
    (told,) = ask("exposed_area", "Amber")
    assert told["formula"].startswith("A = L × (W − h)")
    length = next(one for one in told["inputs"] if one["key"] == "media_length")
    assert length["readings"]
    for reading in length["readings"]:
        assert reading["id"] in told["readings"]
        assert reading["instrument"]["resolution"] > 0
        assert reading["said"]["unit"] == "millimeter"


def test_shares_printed_make_up_the_whole(ask) -> None:
    for told in ask("sheet_density"):
        budget = told["budget"]
        assert sum(source["share"] for source in budget["sources"]) == pytest.approx(1.0)
        size = sum(source["contribution"] ** 2 for source in budget["sources"]) ** 0.5
        assert size == pytest.approx(told["standard_uncertainty"])
        wide = budget["coverage_factor"] * budget["standard_uncertainty"]
        assert wide == pytest.approx(told["expanded_uncertainty"])


def test_terms_reproduce_the_value_of_a_quotient(ask) -> None:
    (told,) = ask("basis_weight", "1")
    terms = {term["key"]: term for term in told["budget"]["terms"]}
    mass, length, width = (terms[k]["value"] for k in ("media_mass", "media_length", "media_width"))
    # g = m / (L W), all in SI: kilograms to a square metre, told in grams.
    assert told["value"] == pytest.approx(1000 * mass / (length * width))
    assert terms["media_mass"]["sensitivity"] == pytest.approx(1000 / (length * width))


def test_inch_numbers_stand_beside_the_metric_ones(ask) -> None:
    (told,) = ask("exposed_area", "cobalt")
    # NIST SP 811 B.8: 1 in² is 6.4516 cm² exactly.
    assert told["inch"]["value"] == pytest.approx(told["value"] / 6.4516)
    ratio = told["expanded_uncertainty"] / told["inch"]["expanded_uncertainty"]
    assert ratio == pytest.approx(6.4516)
    assert "in²" in told["result_inch"]
    assert "cm²" in told["result"]


def test_reading_alone_has_its_sum(ask) -> None:
    (told,) = ask("Can wall thickness", "2")
    assert told["attribute"] == "can_wall"
    assert told["budget"]["terms"] == []
    words = {source["words"] for source in told["budget"]["sources"]}
    assert "scatter of the repeats" in words
    assert any(word.startswith("permissible error of") for word in words)


def test_word_has_readings_and_no_budget(ask) -> None:
    (told,) = ask("media_kind", "Amber")
    assert (told["value"], told["budget"]) == (None, None)
    assert told["word"]
    assert told["inputs"][0]["readings"]


def test_unknown_figure_names_the_nearest(refused) -> None:
    said = refused("exposed_arae")
    assert "No figure 'exposed_arae' in this line-up." in said
    assert "exposed_area" in said


def test_name_like_none_lists_some(refused) -> None:
    assert "There are, among others" in refused("zzzzzz")


def test_unknown_specimen_names_those_there_are(refused) -> None:
    for nobody in ("Nobody", "4", "0"):
        assert "1 Amber, 2 Cobalt, 3 Moss" in refused("exposed_area", nobody)


def test_check_by_draws_is_told_when_asked(ask) -> None:
    (told,) = ask("basis_weight", "Amber", "--check")
    check = told["cross_check"]
    assert check["trials"] == 1_000_000
    assert check["mean"] == pytest.approx(told["value"], rel=1e-3)
    assert check["low"] < told["value"] < check["high"]
    assert check["words"].startswith("95 % of the draws lie from")
    assert "cross_check" not in ask("basis_weight", "Amber")[0]


def test_word_has_nothing_to_draw(ask) -> None:
    (told,) = ask("media_kind", "Amber", "--check")
    assert told["cross_check"] is None


def test_readme_names_only_keys_that_are_printed(
    shelf: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["--shelf", str(shelf), "numbers", LINEUP]) == 0
    told = json.loads(capsys.readouterr().out)
    printed = set(told["findings"][0]) | set(told["figures"][0])
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    table = readme.split("## The data")[1].split("\n## ")[0]
    rows = [line for line in table.splitlines() if line.startswith("| `")]
    named = {key for line in rows for key in re.findall(r"`(\w+)`", line.split("|")[1])}
    assert len(named) > 10
    assert named <= printed
    assert printed - named <= {
        "attribute", "figure", "label", "formula", "specimen_id", "state", "estimate",
        "contact_pressure_kpa",
    }  # fmt: skip
