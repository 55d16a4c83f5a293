"""The light door to a build: where the site that stands is the one that would be built, nothing else is loaded."""

from __future__ import annotations

from builder.asked import Built, Options, Tell
from builder.standing import seen_of, standing


def renew(options: Options, tell: Tell = lambda stage, done, of: None) -> Built:
    """Build the site, where it does not stand already."""
    seen = seen_of(options)
    built = standing(options, seen)
    if built is None:
        from builder.build import build  # only now: it loads all that examining and drawing need

        built = build(options, tell, seen)
    return built
