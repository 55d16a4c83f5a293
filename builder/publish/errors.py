"""What can go wrong while a site is published. An entry's own faults are problems, never one of these.

PublishError
├── OutputRefused     the output folder must not be written to, or another build holds the working folder
└── PictureError      a picture cannot be used
"""

from __future__ import annotations


class PublishError(Exception):
    """The pages could not be made into a site; the message says why in plain words. The last good site stands."""


class OutputRefused(PublishError):
    """The output folder must not be written to; the message says why and what to do instead."""


class PictureError(PublishError):
    """A picture cannot be used; the message says why, in words that fit after "this picture"."""
