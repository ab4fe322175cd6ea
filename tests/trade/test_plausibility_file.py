"""The limits of plausibility: whole, sourced, and faults named by their place."""

from __future__ import annotations

import shutil

import pytest

from benchlog.errors import ResourceFault
from benchlog.trade.plausibility import load_thresholds
from benchlog.trade.resource_file import resources_folder


def test_every_limit_says_why():
    for threshold in load_thresholds().values():
        assert threshold.reason.endswith("."), threshold.key
        assert threshold.source
        assert threshold.support


def test_limits_come_in_si():
    # 40 to 600 g/m² are 0.04 to 0.6 kg/m² (SI prefixes).
    assert load_thresholds()["grammage"].ends_si == pytest.approx((0.04, 0.6))
    assert load_thresholds()["hidden_share"].ends_si == (None, 0.5)


@pytest.mark.parametrize(
    ("good", "bad", "entry", "field"),
    [
        ('most = 0.5\nreason = "Glue', 'reason = "Glue', "hidden_share", "most"),
        ('unit = "gram/meter**2"', 'unit = "gramm/meter**2"', "grammage", "unit"),
        ("least = 40", "least = 900", "grammage", "least"),
        ('reason = "Glue strips', 'reason = ""\nraeson = "Glue strips', "hidden_share", "raeson"),
        (
            'reason = "Glue strips are a few millimetres wide at either end."',
            'reason = " "',
            "hidden_share",
            "reason",
        ),
        ('support = "opinion"', 'support = "hearsay"', "hidden_share", "support"),
    ],
)
def test_faults_are_placed(tmp_path, good, bad, entry, field):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "plausibility.toml"
    text = path.read_text(encoding="utf-8")
    assert good in text
    path.write_text(text.replace(good, bad, 1), encoding="utf-8")
    with pytest.raises(ResourceFault) as caught:
        load_thresholds(tmp_path)
    assert (caught.value.entry, caught.value.field) == (entry, field)
    assert caught.value.line
