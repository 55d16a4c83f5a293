"""The unusual frames of curves, kept from build to build: matplotlib is loaded only where one is missing."""

from __future__ import annotations

from builder.charts.frame import kept_frames, use_kept_frames
from builder.kept.store import Store, Thing

_SHELF = "frames"


def have_frames(store: Store) -> None:
    """Take up the frames that were drawn before, ere processes part, and keep those that were drawn since."""
    kept = store.thing(_SHELF)
    if kept is not None:
        use_kept_frames(kept.content)
    frames = kept_frames()
    if kept is None or kept.content != frames:
        store.keep(_SHELF, [("", Thing("", frames))])
