"""The scales of particle sizes, and faults in their file."""

from __future__ import annotations

import shutil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import ResourceFault
from benchlog.trade.particle_size import load_size_scales
from benchlog.trade.resource_file import resources_folder


@given(st.floats(0.8, 50))
def test_rows_lie_around_every_size_of_the_table(size):
    below, above = load_size_scales()["iso_4402"].around(size)
    assert below[0] <= size <= above[0]


@pytest.mark.parametrize("size", [0.79, 50.1])
def test_outside_the_table_there_are_no_rows(size):
    assert load_size_scales()["iso_4402"].around(size) is None


def test_old_and_new_scale_meet_near_nine():
    # The two scales cross near 9 µm (makers' references): larger below, smaller above.
    rows = load_size_scales()["iso_4402"].rows
    assert all(new > old for old, new in rows if old < 9)
    assert all(new < old for old, new in rows if old > 9)


def test_both_scales_name_their_source():
    scales = load_size_scales()
    assert set(scales) == {"iso_4402", "um_b"}
    assert all(scale.source.startswith("published ") for scale in scales.values())


@pytest.mark.parametrize(
    ("good", "bad", "field"),
    [
        ("[10.0, 9.8]", "[10.0, 7.7]", "rows"),
        ("[0.8, 4.0]", "[0.0, 4.0]", "rows"),
        ("rows = [[1.0, 0.898], [100.0, 89.8]]", "rows = [[1.0, 0.898]]", "rows"),
        ("rounded_to = 0.1", "rounded_to = -0.1", "rounded_to"),
        ('support = "standard"', 'support = "rumour"', "support"),
        ('label = "µm(b)"', 'lable = "µm(b)"', "lable"),
    ],
)
def test_faults_are_placed(tmp_path, good, bad, field):
    shutil.copytree(resources_folder() / "trade", tmp_path / "trade")
    path = tmp_path / "trade" / "particle_sizes.toml"
    text = path.read_text(encoding="utf-8")
    assert good in text
    path.write_text(text.replace(good, bad, 1), encoding="utf-8")
    with pytest.raises(ResourceFault) as caught:
        load_size_scales(tmp_path)
    assert caught.value.field == field
    assert caught.value.line
