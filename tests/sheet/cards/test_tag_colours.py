"""Tags stay apart: by shape always, and by colour for the common colour-vision deficiencies."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000, rgb2lab

from benchlog.judge.verdict import AwardKind
from benchlog.sheet.cards.card import Mark
from benchlog.sheet.cards.coverage import coverage
from benchlog.sheet.cards.faults import contrast
from benchlog.sheet.cards.look import INK, PLATE
from benchlog.sheet.cards.marks import award_mark, line_mark, tag, tag_colour, word_mark
from benchlog.sheet.cards.paths import bounds
from benchlog.tasks.plan import TAG_COLOURS, fresh_specimen
from benchlog.tasks.stand_in import LineOutcome, StandInWord
from benchlog.trade.specimen import Shape

# Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
# Deficiency", IEEE TVCG 15 (2009) 1291-1298, severity 1.0, for linear RGB.
MACHADO = {
    "usual": np.eye(3),
    "protan": np.array([[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
                        [-0.003882, -0.048116, 1.051998]]),
    "deutan": np.array([[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
                        [-0.011820, 0.042940, 0.968881]]),
    "tritan": np.array([[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602],
                        [0.004733, 0.691367, 0.303900]]),
    # The same table at severity 0.5: the milder and far commoner forms.
    "half protan": np.array([[0.458064, 0.679578, -0.137642], [0.092785, 0.846313, 0.060902],
                             [-0.007494, -0.016807, 1.024301]]),
    "half deutan": np.array([[0.547494, 0.607765, -0.155259], [0.181692, 0.781742, 0.036566],
                             [-0.010410, 0.027275, 0.983136]]),
    "half tritan": np.array([[1.017277, 0.027029, -0.044306], [-0.006113, 0.958479, 0.047634],
                             [0.006379, 0.248708, 0.744913]]),
}  # fmt: skip
LEAST_DIFFERENCE = 5.0
"""CIEDE2000 (ISO/CIE 11664-6). 1 is just seen under a lamp, 5 at a glance; common practice."""

OF_THREE = 8.0
"""Floor for the first three colours, which most line-ups stop at; ours, no source."""

SPECIMENS = [fresh_specimen(position) for position in range(6)]


def seen_by(eye: str) -> np.ndarray:
    """The tag palette in CIELAB as an eye of that kind sees it."""
    rgb = np.array([[int(c[n : n + 2], 16) / 255 for n in (1, 3, 5)] for c in TAG_COLOURS])
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    shown = np.clip(linear @ MACHADO[eye].T, 0, 1)
    encoded = np.where(shown <= 0.0031308, 12.92 * shown, 1.055 * shown ** (1 / 2.4) - 0.055)
    return np.asarray(rgb2lab(encoded))


@pytest.mark.parametrize("eye", MACHADO)
def test_tag_colours_stay_apart_for_every_eye(eye: str) -> None:
    lab = seen_by(eye)
    nearest = min(float(deltaE_ciede2000(lab[a], lab[b])) for a, b in combinations(range(6), 2))
    assert nearest >= LEAST_DIFFERENCE


@pytest.mark.parametrize("eye", MACHADO)
def test_first_three_tags_stay_well_apart(eye: str) -> None:
    lab = seen_by(eye)
    nearest = min(float(deltaE_ciede2000(lab[a], lab[b])) for a, b in combinations(range(3), 2))
    assert nearest >= OF_THREE


@pytest.mark.parametrize("eye", MACHADO)
def test_grey_stays_grey_for_every_eye(eye: str) -> None:
    # Each row of a simulation adds up to 1: neutral colours are seen alike by all.
    assert MACHADO[eye].sum(axis=1) == pytest.approx(1, abs=2e-6)


@pytest.mark.parametrize("eye", ["protan", "deutan", "tritan"])
def test_milder_form_lies_between(eye: str) -> None:
    usual, half, full = (seen_by(one) for one in ("usual", f"half {eye}", eye))
    for n in range(len(TAG_COLOURS)):
        mild, strong = (float(deltaE_ciede2000(usual[n], one[n])) for one in (half, full))
        assert mild <= strong + 0.1


@pytest.mark.parametrize(
    ("one", "other", "difference"),
    [
        # Sharma, Wu and Dalal, "The CIEDE2000 Color-Difference Formula", Color Research and
        # Application 30 (2005) 21-30, table 1: pairs 1, 7, 17, 19 and 25.
        ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
        ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
        ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
        ((50.0, 2.5, 0.0), (56.0, -27.0, -3.0), 31.9030),
        ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ],
)
def test_difference_is_measured_as_published(one: tuple, other: tuple, difference: float) -> None:
    found = float(deltaE_ciede2000(np.array(one), np.array(other)))
    assert found == pytest.approx(difference, abs=5e-5)


def test_shape_tells_what_no_colour_would() -> None:
    # All in one colour, as on a grey print of poor quality: shapes alone stay apart.
    grey = [replace(one, colour="#777777") for one in SPECIMENS]
    assert len({one.shape for one in grey}) == 6
    shapes = [silhouette(tag(one, 50, 50, 40)) for one in grey]
    assert min(unlike(a, b) for a, b in combinations(shapes, 2)) > 0.12


def test_two_like_shapes_would_be_found() -> None:
    one, other = (silhouette(tag(replace(SPECIMENS[0], colour=c), 50, 50, 40)) for c in
                  ("#000000", "#ffffff"))  # fmt: skip
    assert unlike(one, other) == 0


def test_a_pair_that_some_cannot_tell_would_be_found() -> None:
    red, green = np.array([[0.55, 0.25, 0.0], [0.32, 0.36, 0.02]]) @ MACHADO["protan"].T
    as_seen = rgb2lab(np.clip(np.array([red, green]), 0, 1) ** (1 / 2.4))
    usual = rgb2lab(np.array([[0.55, 0.25, 0.0], [0.32, 0.36, 0.02]]) ** (1 / 2.4))
    assert deltaE_ciede2000(*as_seen) < deltaE_ciede2000(*usual) / 3


def silhouette(marks: tuple[Mark, ...]) -> np.ndarray:
    """What a mark covers in grey print, light layers cut out."""
    grid = np.zeros((100, 100))
    for mark in marks:
        covered = coverage(mark.outline, 1.0)
        assert covered is not None
        left, top, share = covered
        part = grid[top : top + share.shape[0], left : left + share.shape[1]]
        part[:] = part * (1 - share) + (0.0 if mark.colour == PLATE else share)
    return grid


def unlike(one: np.ndarray, other: np.ndarray) -> float:
    """The share of what either covers that only one does."""
    return float(np.abs(one - other).sum() / np.maximum(one, other).sum())


def test_every_two_tags_differ_in_shape() -> None:
    shapes = [silhouette(tag(s, 50, 50, 40)) for s in SPECIMENS]
    assert min(unlike(a, b) for a, b in combinations(shapes, 2)) > 0.12


def test_every_two_outcomes_differ_in_shape() -> None:
    shapes = [silhouette(award_mark(kind, 50, 50, 40)) for kind in AwardKind]
    assert min(unlike(a, b) for a, b in combinations(shapes, 2)) > 0.05
    lines = [silhouette(line_mark(outcome, 50, 50, 40)) for outcome in LineOutcome]
    assert min(unlike(a, b) for a, b in combinations(lines, 2)) > 0.05
    words = [silhouette(word_mark(word, 50, 50, 40)) for word in StandInWord]
    assert min(unlike(a, b) for a, b in combinations(words, 2)) > 0.05


@pytest.mark.parametrize("shape", Shape)
def test_tags_keep_to_their_circle_of_room(shape: Shape) -> None:
    for mark in tag(replace(SPECIMENS[0], shape=shape), 50, 50, 40):
        area = bounds(mark.outline)
        assert area is not None
        assert min(area.left, area.top) >= 9.5
        assert max(area.right, area.bottom) <= 90.5


@pytest.mark.parametrize("kind", AwardKind)
def test_outcome_marks_keep_to_their_room(kind: AwardKind) -> None:
    for mark in award_mark(kind, 50, 50, 40):
        area = bounds(mark.outline)
        assert area is not None
        assert min(area.left, area.top) >= 9.5
        assert max(area.right, area.bottom) <= 90.5


def test_tag_edge_shows_on_any_plate_whatever_its_colour() -> None:
    pale = replace(SPECIMENS[0], colour="#ffffcc")
    edge, inside = tag(pale, 50, 50, 40)
    assert contrast(edge.colour, PLATE) > 10
    assert inside.colour == "#ffffcc"
    assert tag_colour(replace(pale, colour="red; x")) == INK
