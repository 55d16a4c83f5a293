"""Zip files of one firing, sound and hostile, for the tests."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Mapping
from pathlib import Path

import PIL.Image

from tests.commands.archives import ENTRY

SLUG = "2026-06-20-pale-jar"
ENTRY_TEXT = ENTRY.format(title="Pale jar", date="2026-06-20", peak=770, survival="sound")
WITH_FILES = ENTRY_TEXT.replace(
    "  rows: |\n    0:00  14 °C lit\n    2:00  210 °C\n    4:30  565 °C flames over the rim\n    9:10  770 °C\n"
    "    12:00 640 °C raked open\n",
    "  file: readings.csv\n",
).replace("---\nWe", "photos:\n  - {file: photo-1.jpg, alt: The jar just drawn}\n---\nWe")
READINGS = "time,wall (°C)\n0:00,14\n2:00,210\n4:30,565\n9:10,770\n12:00,640\n"


def jpeg() -> bytes:
    """Return a small real picture."""
    out = io.BytesIO()
    PIL.Image.new("RGB", (40, 30), (180, 120, 90)).save(out, "JPEG")
    return out.getvalue()


def sound_files(folder: str = SLUG) -> dict[str, bytes]:
    """Return what the write-up page hands over: the entry, readings and a photo in one folder."""
    inside = f"{folder}/" if folder else ""
    return {
        f"{inside}entry.md": WITH_FILES.encode(),
        f"{inside}readings.csv": READINGS.encode(),
        f"{inside}photo-1.jpg": jpeg(),
    }


def write_zip(path: Path, files: Mapping[str, bytes] | Iterable[tuple[str | zipfile.ZipInfo, bytes]]) -> Path:
    """Write a zip with these members, in this order."""
    items = files.items() if isinstance(files, Mapping) else files
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as file:
        for name, data in items:
            file.writestr(name, data)
    return path
