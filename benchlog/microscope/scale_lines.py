"""From a profile to its lines: rough period, line centres, their numbers, a straight line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.ndimage import gaussian_filter1d
from scipy.signal import find_peaks

from benchlog.microscope.scale_profile import Line

FEWEST_LINES = 10


@dataclass(frozen=True)
class LineFit:
    """Lines numbered and fitted: columns of the profile, whole numbers, and what they say.

    `period` and its standard uncertainty in columns; `residual` is the rms distance of a line
    from the fit in columns; `curvature` how much the period changes over the lines, as a share.
    `width` is the standard deviation of a line's own shape, blur included, in columns.
    """

    columns: Line
    numbers: Line
    period: float
    period_u: float
    residual: float
    curvature: float
    missing: int
    width: float


def rough_period(light: Line) -> float:
    """Return the period of a profile by its likeness to itself moved; 0 when there is none."""
    n = len(light)
    moved = light - light.mean()
    spectrum = np.abs(np.fft.rfft(moved, 2 * n)) ** 2
    alike = np.fft.irfft(spectrum)[: n // 2] / np.arange(n, n - n // 2, -1)
    if alike[0] <= 0:
        return 0.0
    alike = gaussian_filter1d(alike / alike[0], 0.7)
    below = np.flatnonzero(alike < 0.25 * alike[0])
    if not below.size:
        return 0.0
    leave = int(below[0])  # the central lobe says how wide a line is, not how far the next one
    peaks, _ = find_peaks(alike[leave:], prominence=0.05)
    peaks += leave
    if not peaks.size:
        return 0.0
    tall = peaks[alike[peaks] > 0.5 * alike[peaks].max()]
    return _apex(alike, int(tall[0]))


def line_fit(light: Line, period: float) -> LineFit | None:
    """Return the lines of a profile with a rough period; None when too few are found."""
    upward = light if _skew(light) > 0 else -light
    soft = gaussian_filter1d(upward, max(0.7, 0.12 * period))
    base = gaussian_filter1d(upward, 2.0 * period)
    soft = soft - base
    typical = np.percentile(soft, 95) - np.percentile(soft, 25)
    peaks, _ = find_peaks(soft, distance=max(2.0, 0.6 * period), prominence=0.3 * typical)
    margin = 0.5 * period
    peaks = peaks[(peaks > margin) & (peaks < len(light) - 1 - margin)]
    if len(peaks) < FEWEST_LINES:
        return None
    centres = np.array([_apex(soft, int(p)) for p in peaks])
    numbers, kept, period = _numbered(centres, soft[peaks], period)
    if kept.sum() < FEWEST_LINES:
        return None
    return _fitted(centres[kept], numbers[kept], upward - base, period)


def finer_hint(light: Line, period: float, first: float) -> bool:
    """Whether the profile also repeats, if faintly, 2, 4, 5 or 10 times within its period.

    Blur may drown the fine lines of a scale and leave every fifth, longer one. What is left of
    the fine ones makes their overtone stand out from its two neighbours; the shape of a line
    thinner than a third of the period does so by less than a factor of 1.4.
    """
    window = np.hanning(len(light)) * (light - light.mean())
    turns = (np.arange(len(light)) - first) / period
    heights = np.array(
        [abs(np.sum(window * np.exp(-2j * np.pi * k * turns))) for k in np.arange(0, 12, 0.5)]
    )
    between = float(np.median(heights[3::2]))  # half-way between overtones lies but noise
    for k in (2, 4, 5, 10):
        if k > 0.45 * period:  # finer than two pixels nothing can be told
            break
        here, beside = heights[2 * k], max(heights[2 * k - 2], heights[2 * k + 2])
        if here > max(2.0 * beside, 5.0 * between, 0.15 * heights[2]):
            return True
    return False


def _skew(light: Line) -> float:
    off = light - np.median(light)
    return float(np.mean(off**3))


def _apex(values: Line, at: int) -> float:
    """Return where the parabola through three points about `at` is highest."""
    if not 0 < at < len(values) - 1:
        return float(at)
    left, middle, right = values[at - 1 : at + 2]
    bend = left - 2.0 * middle + right
    return float(at + (0.5 * (left - right) / bend if bend < 0 else 0.0))


def _numbered(centres: Line, heights: Line, period: float) -> tuple[Line, np.ndarray, float]:
    """Return each line's number, which lines agree with the rest, and the period by them.

    Numbers grow outwards from the best-spaced neighbours, so that a small error of the rough
    period never adds up to a whole line.
    """
    gaps = np.diff(centres)
    close = np.abs(gaps / period - 1.0) < 0.2
    if close.any():
        period = float(np.median(gaps[close]))
    numbers = np.concatenate([[0.0], np.cumsum(np.round(gaps / period))])
    start = int(np.argmax(heights))
    kept = np.zeros(len(centres), dtype=bool)
    slope, offset = period, centres[start] - numbers[start] * period
    for reach in (6, 12, 25, 50, 100, 200, 400, 800, 1600):
        near = np.abs(np.arange(len(centres)) - start) <= reach
        numbers = np.where(near, np.round((centres - offset) / slope), numbers)
        kept = near & (np.abs(centres - offset - numbers * slope) < 0.2 * slope)
        if kept.sum() >= 3:
            slope, offset = np.polyfit(numbers[kept], centres[kept], 1)
        if near.all():
            break
    # Lens distortion bends the row of lines; a line may stray from the straight fit by as much.
    off = np.abs(centres - offset - numbers * slope)
    kept = off < max(0.2 * slope, 4.0 * float(np.median(off)))
    return numbers - numbers.min(), kept, float(slope)


def _fitted(centres: Line, numbers: Line, shape: Line, period: float) -> LineFit:
    count = len(centres)
    (slope, offset), scatter = np.polyfit(numbers, centres, 1, cov=True)
    residual = centres - offset - slope * numbers
    curvature, bend_u = _curvature(numbers, centres, slope)
    missing = int(numbers.max() - numbers.min()) + 1 - count
    # A change of period that stands out of its own noise widens what one period may be.
    bent = curvature if curvature > 3.0 * bend_u else 0.0
    u = float(np.hypot(np.sqrt(scatter[0, 0]), bent * slope / 2.0 / np.sqrt(3.0)))
    return LineFit(
        centres,
        numbers,
        float(slope),
        u,
        float(np.sqrt(np.mean(residual**2) * count / (count - 2))),
        curvature,
        missing,
        _line_width(shape, centres, period),
    )


def _curvature(numbers: Line, centres: Line, slope: float) -> tuple[float, float]:
    """Return by what share the period changes over the lines (cubic fit), and its uncertainty."""
    middle, half = numbers.mean(), max(np.ptp(numbers) / 2, 1.0)
    t = (numbers - middle) / half
    cubic, scatter = np.polyfit(t, centres, 3, cov=True)
    along = np.linspace(-1, 1, 41)
    local = np.polyval(np.polyder(cubic), along) / half
    noise = 3.0 * np.sqrt(scatter[0, 0]) + 2.0 * np.sqrt(scatter[1, 1])
    return float(np.ptp(local) / slope), float(noise / half / slope)


def _line_width(shape: Line, centres: Line, period: float) -> float:
    """Return the standard deviation of the mean line, from its full width at half height."""
    t = np.linspace(-0.5, 0.5, 101) * period
    columns = np.arange(len(shape))
    mean = np.mean([np.interp(c + t, columns, shape) for c in centres], axis=0)
    mean = mean - mean.min()
    return float(np.mean(mean > 0.5 * mean.max()) * period / 2.3548)
