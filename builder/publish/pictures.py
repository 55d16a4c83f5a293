"""Pictures made anew from their pixels: nothing of the camera, the place or the file travels to the site."""

from __future__ import annotations

import io
import os
import warnings
from pathlib import Path

from PIL.Image import Image, Transpose

from builder.base.own_file import open_own
from builder.publish.errors import PictureError
from builder.publish.site import Picture

WIDTHS = (480, 1280)
"""Widths that a picture is made in, px; a picture is never made wider than it came."""

MAX_BYTES = 30_000_000
"""Largest file that is opened at all; a telephone's photo has 2 to 12 MB."""

MAX_PIXELS = 64_000_000
"""Largest picture that is decoded, by the size its header states; 64 MP are 192 MB in memory."""

MAX_SIDE = 20_000
"""Longest side, px: a strip one pixel high could otherwise pass as small."""

_FORMATS = ("JPEG", "PNG", "WEBP")
_QUALITY = 82
_COLOURED = ("L", "RGB", "CMYK")
"""Modes of pixels that can be made smaller, and that a colour profile is for."""
_ORIENTATION = 0x0112
"""Exif 3.0, 4.6.5: which side of the picture the camera's upper and left side are."""
_TURNS = {
    2: Transpose.FLIP_LEFT_RIGHT,
    3: Transpose.ROTATE_180,
    4: Transpose.FLIP_TOP_BOTTOM,
    5: Transpose.TRANSPOSE,
    6: Transpose.ROTATE_270,
    7: Transpose.TRANSVERSE,
    8: Transpose.ROTATE_90,
}
"""What brings a picture of each orientation upright; counted against the clock."""
_SIDEWAYS = (Transpose.TRANSPOSE, Transpose.ROTATE_270, Transpose.TRANSVERSE, Transpose.ROTATE_90)
_KNOWN_STRANGERS = (
    (b"%PDF", 0, "a PDF document"),
    (b"GIF8", 0, "a GIF picture"),
    (b"II*\x00", 0, "a TIFF picture"),
    (b"MM\x00*", 0, "a TIFF picture"),
    (b"BM", 0, "a BMP picture"),
    (b"ftyphei", 4, "a HEIC picture"),
    (b"ftypmif", 4, "a HEIC picture"),
    (b"ftypavif", 4, "an AVIF picture"),
)


def look_at(path: Path) -> str | None:
    """Say what is wrong with a picture, in words that fit after its name, or None where it can be used."""
    try:
        with _opened(path) as image:
            # All of a JPEG is read, but only an eighth of its width and height made, and that in grey.
            image.draft("L", (1, 1))
            _decode(image)
    except PictureError as error:
        return str(error)
    return None


def remake(path: Path, stem: str) -> tuple[Picture, ...]:
    """Make a picture anew from its pixels in the site's widths; raises PictureError where `look_at` finds fault.

    It is made small before it is turned, coloured and copied, each of which then has less to do.
    """
    with _opened(path) as image:
        turn = _turn(image)
        sideways = turn in _SIDEWAYS
        # A telephone's JPEG is decoded at half or a quarter of its size where that is still wider than is wanted.
        image.draft(None, (1, WIDTHS[-1]) if sideways else (WIDTHS[-1], 1))
        _decode(image)
        large = _scaled(_opaque(image), WIDTHS[-1], sideways)
    if turn is not None:
        large = large.transpose(turn)
    large = _bare(_to_srgb(large))
    widths = [width for width in WIDTHS if width < large.width]
    return tuple(_picture(picture, stem) for picture in (*(_scaled(large, width) for width in widths), large))


def _opened(path: Path) -> Image:
    """Open a picture and read its header only; whatever is too large or of another kind stops here."""
    import PIL.Image

    data = _bytes(path)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # its size is judged below, by a stricter measure
            image = PIL.Image.open(io.BytesIO(data), formats=_FORMATS)
    except PIL.Image.DecompressionBombError as error:
        raise PictureError(_too_many_pixels()) from error
    except Exception as error:  # decoders raise almost anything over a hostile file
        raise PictureError(_stranger(data[:512])) from error
    if image.width * image.height > MAX_PIXELS or max(image.size) > MAX_SIDE:
        image.close()
        raise PictureError(_too_many_pixels())
    return image


def _bytes(path: Path) -> bytes:
    """Read a picture's file once, so that nothing can be put in its place between looking and decoding."""
    try:
        with open_own(path) as file:
            size = os.fstat(file.fileno()).st_size
            if size > MAX_BYTES:
                raise PictureError(f"is {size / 1e6:.0f} MB large; the most is {MAX_BYTES / 1e6:.0f} MB")
            data = file.read(MAX_BYTES)
    except OSError as error:
        raise PictureError("cannot be read") from error
    if not data:
        raise PictureError("is empty")
    return data


def _too_many_pixels() -> str:
    return f"has too many pixels; the most is {MAX_PIXELS // 1_000_000} million, and {MAX_SIDE} along a side"


def _stranger(head: bytes) -> str:
    """Name the kind of a file that is not a picture of the three kinds, by its first bytes."""
    for mark, offset, name in _KNOWN_STRANGERS:
        if head[offset:].startswith(mark):
            return f"is {name}; the site takes JPEG, PNG and WebP"
    if b"<svg" in head.lower() or head.lstrip().startswith(b"<?xml"):
        return "is an SVG drawing, which can carry scripts; the site takes JPEG, PNG and WebP"
    return "is not a JPEG, PNG or WebP picture, or its beginning is damaged"


def _decode(image: Image) -> None:
    """Decode all pixels, so that a truncated or damaged file is found out."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image.load()
    except Exception as error:  # see _opened
        raise PictureError("is cut short or damaged, and cannot be read to its end") from error


def _turn(image: Image) -> Transpose | None:
    """Tell how a picture is turned the way its camera was held; a broken note about that counts as none."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return _TURNS.get(image.getexif().get(_ORIENTATION, 1))
    except Exception:  # a broken EXIF block raises almost anything; the pixels are sound all the same
        return None


def _opaque(image: Image) -> Image:
    """Give the pixels as 8 bits of grey, RGB or CMYK, on white where they can be seen through."""
    from PIL import Image as images

    if image.mode.startswith("I") or image.mode == "F":
        image = _eight_bit(image)
    if "A" in image.getbands() or "transparency" in image.info:
        profile = image.info.get("icc_profile")
        layer = image.convert("RGBA")
        paper = images.new("RGBA", image.size, (255, 255, 255, 255))
        image = images.alpha_composite(paper, layer).convert("RGB")
        image.info["icc_profile"] = profile
    return image if image.mode in _COLOURED else image.convert("RGB")


def _bare(image: Image) -> Image:
    """Give the pixels as RGB, with every note left behind."""
    from PIL import Image as images

    bare = images.new("RGB", image.size, None)  # no colour: every pixel is written at once
    bare.paste(image)
    return bare


def _eight_bit(image: Image) -> Image:
    """Bring a picture of 16 bits a pixel to 8, by its upper byte."""
    import numpy as np
    from PIL import Image as images

    values = np.clip(np.asarray(image, dtype=np.float64) / 256.0, 0.0, 255.0)
    return images.fromarray(values.astype(np.uint8))


def _to_srgb(image: Image) -> Image:
    """Convert by the picture's own colour profile; one that is broken or does not fit is passed over."""
    profile = image.info.get("icc_profile")
    if not profile:
        return image
    from PIL import ImageCms  # only now: it takes as long to load as half a picture to make

    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        target = ImageCms.createProfile("sRGB")
        return ImageCms.profileToProfile(image, source, target, outputMode="RGB") or image
    except (ImageCms.PyCMSError, OSError, ValueError):
        return image


def _scaled(image: Image, width: int, sideways: bool = False) -> Image:
    """Give a picture in a width, px, that it has once it is upright; one that is no wider stays as it is.

    Hamming's filter is as sharp as the bicubic one where pictures shrink, and half the work of Lanczos'; what is more
    than halved is first brought near its size by plain averages.
    """
    from PIL import Image as images

    across, up = reversed(image.size) if sideways else image.size
    if width >= across:
        return image
    size = (width, max(1, round(up * width / across)))
    return image.resize(size[::-1] if sideways else size, images.Resampling.HAMMING, reducing_gap=1.01)


def _picture(plain: Image, stem: str) -> Picture:
    """Write a picture as JPEG, line by line: in passes it would be a twentieth smaller and cost twice the time."""
    out = io.BytesIO()
    plain.save(out, "JPEG", quality=_QUALITY, optimize=True)
    return Picture(f"{stem}-{plain.width}.jpg", plain.width, plain.height, out.getvalue())
