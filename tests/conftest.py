"""What all tests share: hypothesis without a stopwatch, trying the same cases on every machine."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
