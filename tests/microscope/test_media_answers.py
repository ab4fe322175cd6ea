"""Two media compared by plain answers: what takes part, what is told, what is refused."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest

from benchlog.errors import EntryRefused
from benchlog.measure.picture_doubt import OWN_LIGHT
from benchlog.microscope.comparing import opening_difference
from benchlog.microscope.fields import more_fields
from benchlog.microscope.media_answers import compare_media

Answer = dict[str, Any]


def field(
    d50: float, open_share: float = 0.6, fibre: float | None = None, **more: object
) -> Answer:
    """Return the answer on one picture, D50 known to 2 % by its field and 3 % by its light."""
    figures = {"D50": (d50, 0.02 * d50, 0.03 * d50), "open area": (open_share, 0.02, 0.02)}
    if fibre is not None:
        figures["fibre median"] = (fibre, 0.3, 0.4)
    told = {
        key: {"value": value, "u_sampling": sampling, "u_systematic": systematic}
        for key, (value, sampling, systematic) in figures.items()
    }
    return {"verdict": "measured", "light": "above", "reasons": [], "figures": told} | more


REFUSED = {"verdict": "refused", "light": "below", "reasons": ["It is blurred."], "figures": {}}


def test_a_clear_difference_is_told():
    got = compare_media([field(40), field(41), field(40.5)], [field(60), field(61), field(59)], 0.2)
    gap = got["differences"]["D50"]
    assert gap["answer"] == "tighter"
    assert gap["difference"] == pytest.approx(-19.5)
    assert gap["percent"] == pytest.approx(-32.5)
    assert gap["high"] < 0.0
    assert got["differences"]["open area"]["answer"] == "cannot tell"
    assert "fibre median" not in got["differences"], "no picture gave one"
    assert json.loads(json.dumps(got, allow_nan=False)) == got


def test_other_figures_are_smaller_or_larger():
    a = [field(40, 0.50, 11.0), field(41, 0.51, 11.2), field(40.5, 0.50, 11.1)]
    b = [field(40, 0.80, 5.0), field(41, 0.81, 5.2), field(40.5, 0.80, 5.1)]
    told = compare_media(a, b, 0.2)["differences"]
    assert [told[key]["answer"] for key in ("D50", "open area", "fibre median")] == [
        "cannot tell",
        "smaller",
        "larger",
    ]


def test_each_mediums_own_light_widens_the_interval():
    a, b = [40.0, 41.0, 40.5], [60.0, 61.0, 59.0]
    got = compare_media([field(d) for d in a], [field(d) for d in b], 0.2)["differences"]["D50"]
    own = OWN_LIGHT["above"] * 0.03 * math.hypot(sum(a) / 3, sum(b) / 3)
    plain = opening_difference(a, b, own, sampling=0.02)
    assert (got["low"], got["high"]) == pytest.approx((plain.low, plain.high))
    assert got["degrees_of_freedom"] == pytest.approx(plain.freedom)


def test_refused_pictures_take_no_part():
    both = compare_media([field(40), REFUSED, field(41)], [field(60), field(61)], 0.2)
    alone = compare_media([field(40), field(41)], [field(60), field(61)], 0.2)
    assert both["differences"] == alone["differences"]
    assert both["light"] == "above"
    assert (both["first"]["pictures"], both["first"]["measured"]) == (3, 2)
    assert both["first"]["reasons"] == ["It is blurred."]


def test_media_carry_their_means():
    got = compare_media([field(40), field(44)], [field(60), field(61)], 0.2)["first"]
    assert got["means"]["D50"] == {
        "mean": 42.0,
        "fields": 2,
        "spread": pytest.approx(math.sqrt(8.0)),
        "half_width": pytest.approx(12.706 * 2.0, rel=1e-4),  # t table: t(0.975, 1) = 12.706
        "more_fields": more_fields([40, 44], 8.4),
    }


def test_too_few_fields_are_refused():
    with pytest.raises(EntryRefused, match="at least two measured fields"):
        compare_media([field(40), REFUSED], [field(60), field(61)], 0.2)


def test_unlike_light_is_refused():
    with pytest.raises(EntryRefused, match="some from below"):
        compare_media([field(40), field(41)], [field(60), field(61, light="below")], 0.2)
