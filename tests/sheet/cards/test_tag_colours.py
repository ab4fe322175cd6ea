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
}  # fmt: skip
LEAST_DIFFERENCE = 5.0
"""CIEDE2000 (ISO/CIE 11664-6). 1 is just seen under a lamp, 5 at a glance; common practice."""

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
