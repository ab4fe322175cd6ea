"""The version of the measurement goes up when the same picture is answered otherwise.

Where this fails, the measurement moved: raise the version in `measured_pictures.METHOD` and put
what it says now under the new name. Before a first release the numbers alone may be renewed.
"""

from __future__ import annotations

import io
from datetime import UTC, datetime

import pytest
from PIL import Image

from benchlog.measure.micrograph import MicroscopeSetUp, ScaleFrom
from benchlog.microscope.measured_pictures import METHOD, PicturesHere
from benchlog.tasks.remeasure import SAME
from tests.microscope.drawn_fibres import Mat, drawn

Said = dict[str, tuple[float, float, float]]
"""Value, what one field is unsure by, and what light and edges may shift; by figure."""

ANSWERED: dict[str, dict[str, Said]] = {
    "covering circles, fitted edges; version 1": {
        "above": {
            "D10": (6.70273, 1.09492, 0.348885),
            "D50": (22.3582, 4.56539, 0.646756),
            "D90": (40.275, 12.3358, 2.32565),
            "D95": (43.876, 17.9184, 2.53352),
            "open area": (0.544893, 0.0335034, 0.0234034),
            "fibre mean": (6.02362, 0.306532, 0.245389),
            "fibre median": (5.39535, 0.384177, 0.245389),
            "fibre P10": (3.9775, 0.52417, 0.422929),
            "fibre P90": (8.16823, 0.52417, 1.4359),
        },
        "below": {
            "D10": (7.00296, 1.14598, 0.347024),
            "D50": (22.4025, 4.58248, 0.647033),
            "D90": (40.7734, 12.5104, 2.35414),
            "D95": (44.3133, 18.1288, 2.55851),
            "open area": (0.549501, 0.0335366, 0.0231709),
            "fibre mean": (5.94004, 0.305532, 0.145805),
            "fibre median": (5.32643, 0.382923, 0.145805),
            "fibre P10": (3.90507, 0.52246, 0.368281),
            "fibre P90": (8.11206, 0.52246, 1.4126),
        },
    },
}  # fmt: skip
"""What each version says of two drawn pictures: as measured, held so that it moves knowingly."""

PICTURES = {
    "above": (Mat(size=(460, 345), width=11.0, seed=2), None),
    "below": (Mat(size=(460, 345), width=11.0, seed=2, light="below", style="round"), 0.3),
}


class Unwatched:
    def step(self, done: int, total: int, what: str) -> None:
        """Take no notice."""


@pytest.mark.parametrize("light", PICTURES)
def test_moved_figures_want_a_version(light: str) -> None:
    mat, offset = PICTURES[light]
    kept = io.BytesIO()
    Image.fromarray(drawn(mat).coded).save(kept, "PNG")
    set_up = MicroscopeSetUp(
        "m1", "bench", "stereo", "4x", light, 0.5, 0.005, ScaleFrom.TYPED,
        datetime(2026, 11, 1, tzinfo=UTC), edge_offset_px=offset,
    )  # fmt: skip
    answer = PicturesHere().measure(kept.getvalue(), set_up, Unwatched())
    assert answer.method == METHOD
    assert METHOD in ANSWERED, "a new version wants its answers here"
    said = {f.key: (f.value, f.sampling, f.systematic) for f in answer.figures}
    told = ANSWERED[METHOD][light]
    assert said.keys() == told.keys()
    for key, numbers in told.items():
        assert said[key] == pytest.approx(numbers, rel=SAME), f"{key}: raise the version of METHOD"
