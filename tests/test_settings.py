from __future__ import annotations

import json
from dataclasses import asdict, replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.settings import (
    ScaleSettings,
    Settings,
    load_settings,
    save_settings,
    settings_file,
)


def test_first_start_has_sensible_settings() -> None:
    assert not settings_file().exists()
    settings = load_settings()
    assert settings == Settings()
    # 9600 baud, 8 data bits, no parity, 1 stop bit: common practice, no source
    assert (settings.scale.baud, settings.scale.data_bits) == (9600, 8)
    assert (settings.scale.parity, settings.scale.stop_bits) == ("N", 1)


def test_settings_come_back_as_saved() -> None:
    kept = replace(
        Settings(),
        theme="dark",
        inch=True,
        keys={"next": "F15"},
        scale=ScaleSettings(port="/dev/ttyUSB3", baud=2400, stop_bits=2),
    )
    save_settings(kept)
    assert load_settings() == kept


@pytest.mark.parametrize("text", ["", "{", "[]", "null", '{"scale": 5}', '{"theme": 7}'])
def test_broken_settings_fall_back(tmp_path: Path, text: str) -> None:
    path = tmp_path / "settings.json"
    path.write_text(text, encoding="utf-8")
    assert load_settings(path) == Settings()


def test_one_wrong_value_loses_no_other(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    path.write_text(json.dumps({"theme": "light", "inch": "yes", "unknown": 1}), encoding="utf-8")
    assert load_settings(path) == replace(Settings(), theme="light")


def test_unknown_units_to_show_fall_back(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    path.write_text(json.dumps({"units": "furlongs", "paper": "Letter"}), encoding="utf-8")
    assert load_settings(path) == replace(Settings(), paper="Letter")


@given(
    st.builds(
        Settings,
        theme=st.sampled_from(["system", "dark", "light"]),
        inch=st.booleans(),
        units=st.sampled_from(["metric", "inch", "both"]),
        reviewer=st.text(st.characters(exclude_categories=["Cs"])),
        keys=st.dictionaries(st.text("abc"), st.text("abc")),
        own_weights=st.dictionaries(st.text("abc"), st.text("abc")),
    )
)
def test_any_settings_survive_the_file(
    tmp_path_factory: pytest.TempPathFactory, settings: Settings
) -> None:
    path = tmp_path_factory.mktemp("s") / "settings.json"
    save_settings(settings, path)
    assert load_settings(path) == settings
    assert set(json.loads(path.read_text(encoding="utf-8"))) == set(asdict(settings))
