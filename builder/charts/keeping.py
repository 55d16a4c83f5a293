"""The frames of curves, kept from build to build: matplotlib is loaded only where one is missing."""

from __future__ import annotations

from collections.abc import Iterable

from builder.charts.frame import (
    DURATIONS_MIN,
    EMPTY_FRAME_MIN,
    TOPS_C,
    draw_standard_frames,
    frame_minutes,
    kept_frames,
    standard_frame,
    use_kept_frames,
)
from builder.charts.layout import SMALL
from builder.kept.store import Store, Thing
from builder.readings.curve import FiringCurves

_SHELF = "frames"


def have_small_frames(store: Store) -> None:
    """Have the frames of all small curves before processes part: kept ones, or drawn and kept."""
    _take_up(store)
    for minutes in DURATIONS_MIN:
        standard_frame(minutes, TOPS_C[0], SMALL)
    keep_frames(store)


def have_frames(curves: Iterable[FiringCurves], store: Store) -> None:
    """Have the frames of all durations of some firings' curves."""
    _take_up(store)
    lasting = {frame_minutes(float(curve.minutes[-1])) for one in curves for curve in one.curves}
    draw_standard_frames(sorted(lasting | {EMPTY_FRAME_MIN}))
    keep_frames(store)


def keep_frames(store: Store) -> None:
    """Keep all frames drawn so far: one that an unusual curve needed is wanted again by the next build."""
    frames, kept = kept_frames(), store.shelf(_SHELF).get("")
    if kept is None or kept.content != frames:
        store.keep(_SHELF, [("", Thing("", frames))])


def _take_up(store: Store) -> None:
    kept = store.shelf(_SHELF).get("")
    if kept is not None:
        use_kept_frames(kept.content)
