"""Set-ups, micrographs and answers, as they may come: for tests by property."""

from __future__ import annotations

from hypothesis import strategies as st

from benchlog.measure.micrograph import (
    Micrograph,
    MicroscopeSetUp,
    PictureAnswer,
    PictureFigure,
    PictureGate,
    ScaleFrom,
    Side,
)
from tests.strategies import amounts, ids, marks, names, numbers, times, words

outcomes = st.sampled_from(["passed", "warned", "refused"])
gates = st.builds(
    PictureGate,
    key=marks,
    value=st.none() | numbers,
    limit=numbers,
    outcome=outcomes,
    words=words,
)
figures = st.builds(
    PictureFigure,
    key=marks,
    value=numbers,
    unit=st.sampled_from(["um", "1"]),
    sampling=amounts,
    systematic=amounts,
    calibration=amounts,
)
sentences = st.lists(words, max_size=3).map(tuple)
series = st.lists(numbers, max_size=4).map(tuple)


def set_ups(set_up_id: str, scale_picture: str = "") -> st.SearchStrategy[MicroscopeSetUp]:
    """Set-ups of one id, with or without the picture of a scale."""
    return st.builds(
        MicroscopeSetUp,
        id=st.just(set_up_id),
        name=names,
        microscope=words,
        objective=words,
        light=st.sampled_from(["above", "below", "automatic"]),
        um_per_px=amounts,
        u_um_per_px=amounts,
        scale_from=st.sampled_from(ScaleFrom),
        at=times,
        width_px=st.integers(0, 20_000),
        height_px=st.integers(0, 20_000),
        division_um=amounts,
        division_u_um=amounts,
        scale_picture=st.just(scale_picture),
        scale_notes=sentences,
        edge_offset_px=st.none() | numbers,
        reference_fibre=words,
        note=words,
    )


def micrographs(
    lineup_id: str, specimen_id: str, set_up_id: str, photo_id: str
) -> st.SearchStrategy[Micrograph]:
    """Fields of one specimen, all with one picture."""
    return st.builds(
        Micrograph,
        id=ids,
        lineup_id=st.just(lineup_id),
        specimen_id=st.just(specimen_id),
        side=st.sampled_from(Side),
        field=st.integers(1, 99),
        set_up_id=st.just(set_up_id),
        photo_id=st.just(photo_id),
        at=times,
        withdrawn=st.booleans(),
    )


def answers(micrograph_id: str) -> st.SearchStrategy[PictureAnswer]:
    """Answers on one micrograph, that made no reading."""
    return st.builds(
        PictureAnswer,
        id=ids,
        micrograph_id=st.just(micrograph_id),
        at=times,
        method=words,
        verdict=st.sampled_from(["measured", "refused"]),
        light=st.sampled_from(["above", "below"]),
        reasons=sentences,
        warnings=sentences,
        withheld=sentences,
        gates=st.lists(gates, max_size=3).map(tuple),
        figures=st.lists(figures, max_size=3).map(tuple),
        fibres=amounts,
        edges_um=series,
        shares=series,
    )
