"""Whether past awards lean, asked for on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from benchlog.__main__ import main
from tests.small_trade import HandClock
from tests.tasks.fair_scenes import fair_shelf, read_dents


def test_bias_prints_json_and_sentences(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shelf = fair_shelf(tmp_path)
    read_dents(shelf, HandClock())
    shelf.close()
    assert main(["--shelf", str(tmp_path), "bias"]) == 0
    said = capsys.readouterr()
    told = json.loads(said.out)
    assert told["lineups"] == 1
    order = next(one for one in told["checks"] if one["key"] == "order")
    assert order["first"]["value"] == 1.0
    assert order["last"]["value"] == 0.0
    assert order["enough"] is False
    assert "Too few to say: 1 line-up in which both stood, and it takes 10." in said.err
    assert told["limits"] in said.err
