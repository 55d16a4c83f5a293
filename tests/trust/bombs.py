"""Files that are more than they seem: pictures and zips that unpack without end, and pictures that are none."""

from __future__ import annotations

import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path

from tests.intake.zips import sound_files

MEGABYTES = 300
"""What a bomb unpacks to, from a few hundred kilobytes."""
ZIPS = ("a member without end", "members without number", "a way out", "a link", "two names in one", "a zip in a zip")


def packed_megabytes(filling: bytes) -> bytes:
    """Return so many megabytes of one byte, packed."""
    packer = zlib.compressobj(9)
    return b"".join(packer.compress(filling * 1_000_000) for _ in range(MEGABYTES)) + packer.flush()


def png(width: int, height: int, packed: bytes, more: bytes = b"") -> bytes:
    """Return a PNG of this size in its header and these packed pixels; `more` are chunks between the two."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = chunk(b"IHDR", head) + more + chunk(b"IDAT", packed) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + chunks


def chunk(kind: bytes, data: bytes) -> bytes:
    """Return one part of a PNG."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def pictures() -> Iterator[tuple[str, bytes]]:
    """Yield pictures that are bombs, or no pictures: a name for each, with its bytes."""
    for width, height in ((60_000, 60_000), (20_001, 1), (1, 2**31 - 1), (8_001, 8_000)):
        yield f"{width} by {height}.png", png(width, height, zlib.compress(b"\0" * 1_000_000, 9))
    yield "pixels without end.png", png(10, 10, packed_megabytes(b"\0"))
    note = b"Comment\0\0" + packed_megabytes(b"a")
    yield "a note without end.png", png(10, 10, zlib.compress(b"\0" * 310), chunk(b"zTXt", note))
    frame = struct.pack(">BHHBBBBBBBBBB", 8, 65_500, 65_500, 3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0)
    yield "a giant.jpg", b"\xff\xd8\xff\xc0" + struct.pack(">H", len(frame) + 2) + frame + b"\xff\xd9"
    yield "cut off.jpg", b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01"
    yield "a drawing.jpg", b"<svg xmlns='http://www.w3.org/2000/svg' onload='ran()'/>"
    yield "a page.png", b"<!doctype html><script>ran()</script>"
    yield "nothing.jpg", b""
    yield "film.gif", b"GIF89a\xff\xff\xff\xff\x00\x00\x00" + b"!\xf9\x04\x00\x00\x00\x00\x00,\x00\x00" * 1000 + b";"
    yield "tagged.tif", b"II*\x00\x08\x00\x00\x00\xff\xff" + b"\xff" * 2000


def write_zip_bomb(path: Path, kind: str) -> None:
    """Write one of `ZIPS`."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as file:
        for name, data in sound_files().items():
            file.writestr(name, data)
        folder = next(iter(sound_files())).partition("/")[0]
        if kind == "a member without end":
            with file.open(f"{folder}/readings-2.csv", "w") as member:
                for _ in range(MEGABYTES):
                    member.write(b"0" * 1_000_000)
        elif kind == "members without number":
            for number in range(20_000):
                file.writestr(f"{folder}/{number}.txt", b"")
        elif kind == "a way out":
            file.writestr("../../../../escaped.txt", b"x")
        elif kind == "a link":
            link = zipfile.ZipInfo(f"{folder}/photo-2.jpg")
            link.create_system, link.external_attr = 3, 0o120777 << 16
            file.writestr(link, "/etc/passwd")
        elif kind == "two names in one":
            file.writestr(f"{folder}/ENTRY.MD", b"---\n---\n")
        else:
            file.writestr(f"{folder}/more.zip", packed_megabytes(b"\0"))
