"""How large a zip with one firing may be."""

from __future__ import annotations

from builder.base.zip_listing import ZipLimits

MAX_MEMBERS = 100
"""Most files of one firing; a dozen pictures are many."""
LIMITS = ZipLimits(
    packed=200_000_000,  # six pictures of the largest size that the site takes, with room to spare
    unpacked=250_000_000,
    members=MAX_MEMBERS,
    smaller="Zip the one firing alone: its entry, its readings and a few pictures, smaller ones if need be.",
    again="Save the hand-over from the write-up page again, or zip the firing's folder again, with plain names.",
)
