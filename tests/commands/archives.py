"""Small archives for the tests of whole commands."""

from __future__ import annotations

from pathlib import Path

SETTINGS = """\
group: {name: Reedmere potters, title: Reedmere fires, url: "https://example.org/fires/"}
potters:
  wren: {name: Wren Oddie}
  tam: {name: Tam Quillet}
methods:
  open-fire:
    {name: Open fire, kind: ground, window: 660 °C to 800 °C, success: {survival: [sound], carbon: [cleared]}}
"""

ENTRY = """\
---
title: {title}
date: {date}
potter: wren
method: open-fire
readings:
  time: elapsed
  rows: |
    0:00  14 °C lit
    2:00  210 °C
    4:30  565 °C flames over the rim
    9:10  {peak} °C
    12:00 640 °C raked open
pieces:
  - {{name: jar, survival: sound, carbon: cleared}}
  - {{name: tiles, count: 3, survival: {survival}, carbon: core}}
---
We lit it at nine, and it was over by a quarter past.
"""


def write_entry(
    project: Path, slug: str, title: str = "A fire", peak: int = 770, survival: str = "sound", date: str = ""
) -> Path:
    """Write one entry into an archive; its date is that of its folder."""
    folder = project / "content" / "firings" / slug
    folder.mkdir(parents=True)
    entry = folder / "entry.md"
    text = ENTRY.format(title=title, date=date or slug[:10], peak=peak, survival=survival)
    entry.write_text(text, encoding="utf-8")
    return entry


def write_archive(project: Path, firings: int = 3) -> Path:
    """Write an archive of a few sound firings."""
    project.mkdir(parents=True, exist_ok=True)
    (project / "site_config.yml").write_text(SETTINGS, encoding="utf-8")
    for number in range(1, firings + 1):
        write_entry(project, f"2026-05-{number:02}-fire-{number}", f"Fire {number}", 690 + 20 * number)
    return project
