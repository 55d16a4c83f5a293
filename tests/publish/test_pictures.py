"""Pictures are made anew from pixels, and a hostile or broken file is found out before it is decoded."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms, JpegImagePlugin

from builder.publish.errors import PictureError
from builder.publish.pictures import MAX_BYTES, look_at, remake


def _photo(path: Path, size: tuple[int, int] = (900, 600), **save: object) -> Path:
    """A picture whose left upper quarter is red, the rest blue."""
    image = Image.new("RGB", size, (20, 40, 200))
    image.paste((220, 30, 20), (0, 0, size[0] // 2, size[1] // 2))
    image.save(path, **save)  # type: ignore[arg-type]
    return path


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def _png_header_only(width: int, height: int) -> bytes:
    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", header) + _chunk(b"IDAT", b"") + _chunk(b"IEND", b"")


def _open(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data))


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp"])
def test_the_three_kinds_of_picture_are_taken(tmp_path: Path, name: str) -> None:
    assert look_at(_photo(tmp_path / name)) is None


def test_the_content_decides_the_kind_not_the_name(tmp_path: Path) -> None:
    path = _photo(tmp_path / "a.png")
    assert look_at(path.rename(tmp_path / "a.jpg")) is None


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is empty"),
        (b'<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>', "SVG"),
        (b'<?xml version="1.0"?><svg/>', "SVG"),
        (b"GIF89a\x01\x00\x01\x00\x00\x00\x00;", "GIF"),
        (b"%PDF-1.7", "PDF"),
        (b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00", "HEIC"),
        (b"hello", "is not a JPEG, PNG or WebP picture"),
    ],
)
def test_another_kind_of_file_is_refused_by_name(tmp_path: Path, data: bytes, words: str) -> None:
    path = tmp_path / "photo.jpg"
    path.write_bytes(data)
    assert words in (look_at(path) or "")


def test_a_missing_file_is_said_to_be_unreadable(tmp_path: Path) -> None:
    assert look_at(tmp_path / "none.jpg") == "cannot be read"


def test_a_truncated_picture_is_found_out(tmp_path: Path) -> None:
    path = _photo(tmp_path / "a.jpg")
    path.write_bytes(path.read_bytes()[:-400])
    assert "cut short" in (look_at(path) or "")
    with pytest.raises(PictureError, match="cut short"):
        remake(path, "a")


@pytest.mark.parametrize(("width", "height"), [(60_000, 60_000), (9_000, 9_000), (30_000, 10), (12_000, 12_000)])
def test_a_header_that_claims_too_many_pixels_is_refused_without_decoding(
    tmp_path: Path, width: int, height: int
) -> None:
    path = tmp_path / "bomb.png"
    path.write_bytes(_png_header_only(width, height))
    assert "too many pixels" in (look_at(path) or "")


def test_a_file_of_too_many_bytes_is_refused_unopened(tmp_path: Path) -> None:
    path = tmp_path / "large.jpg"
    with path.open("wb") as file:
        file.truncate(MAX_BYTES + 1)
    assert "MB" in (look_at(path) or "")


def test_widths_are_480_and_1280_and_never_larger_than_the_picture(tmp_path: Path) -> None:
    large = remake(_photo(tmp_path / "l.jpg", (2600, 1300)), "l")
    assert [(p.address_name, p.width, p.height) for p in large] == [
        ("l-480.jpg", 480, 240),
        ("l-1280.jpg", 1280, 640),
    ]
    middling = remake(_photo(tmp_path / "m.jpg", (900, 600)), "m")
    assert [(p.width, p.height) for p in middling] == [(480, 320), (900, 600)]
    small = remake(_photo(tmp_path / "s.jpg", (300, 200)), "s")
    assert [(p.address_name, p.height) for p in small] == [("s-300.jpg", 200)]
    assert [_open(p.data).size for p in large] == [(480, 240), (1280, 640)]


def test_nothing_but_pixels_survives(tmp_path: Path) -> None:
    """EXIF with a place and a maker, XMP, a comment and a colour profile all stay behind."""
    exif = Image.Exif()
    exif[0x010F] = "CameraMakerWord"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (51.0, 7.0, 30.0)
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    path = _photo(
        tmp_path / "a.jpg",
        exif=exif,
        comment=b"SecretCommentWord",
        xmp=b"<x:xmpmeta>SecretXmpWord</x:xmpmeta>",
        icc_profile=profile,
    )
    before = path.read_bytes()
    assert b"SecretXmpWord" in before and b"CameraMakerWord" in before and b"SecretCommentWord" in before
    for picture in remake(path, "a"):
        made = _open(picture.data)
        assert not made.getexif()
        assert set(made.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression"}
        for word in (b"Secret", b"CameraMaker", b"Exif", b"ICC_PROFILE", b"http"):
            assert word not in picture.data


def test_a_picture_taken_sideways_is_turned_upright(tmp_path: Path) -> None:
    """Orientation 6 means: turn a quarter to the right. The red quarter, left above, comes to stand right above."""
    exif = Image.Exif()
    exif[0x0112] = 6
    (made, *_) = remake(_photo(tmp_path / "a.jpg", (400, 300), exif=exif, quality=95), "a")
    image = _open(made.data)
    assert image.size == (300, 400)
    right_above, left_above = image.getpixel((250, 60)), image.getpixel((40, 60))
    assert isinstance(right_above, tuple) and right_above[0] > 180
    assert isinstance(left_above, tuple) and left_above[2] > 150


_LEFT_ABOVE = {1: "left above", 2: "right above", 3: "right below", 4: "left below",
               5: "left above", 6: "right above", 7: "right below", 8: "left below"}  # fmt: skip
"""Where the file's left upper corner comes to stand, by Exif 3.0, 4.6.5; from 5 on the picture lies on its side."""


@pytest.mark.parametrize("orientation", _LEFT_ABOVE)
@pytest.mark.parametrize("size", [(2600, 1300), (400, 300)])
def test_every_way_to_hold_a_camera_comes_upright(tmp_path: Path, orientation: int, size: tuple[int, int]) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    made = remake(_photo(tmp_path / "a.jpg", size, exif=exif, quality=95), "a")
    across, up = size if orientation < 5 else size[::-1]
    width = min(across, 1280)
    assert (made[-1].width, made[-1].height) == (width, round(up * width / across))
    for picture in made:
        image = _open(picture.data)
        corners = {
            f"{side} {level}": image.getpixel((round(image.width * x), round(image.height * y)))
            for side, x in (("left", 0.2), ("right", 0.8))
            for level, y in (("above", 0.2), ("below", 0.8))
        }
        red = [place for place, pixel in corners.items() if isinstance(pixel, tuple) and pixel[0] > 150]
        assert red == [_LEFT_ABOVE[orientation]]


@pytest.mark.parametrize(("orientation", "size"), [(1, (2600, 900)), (6, (900, 2600)), (1, (2600, 5200))])
def test_a_large_jpeg_is_decoded_no_larger_than_its_width_asks_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, orientation: int, size: tuple[int, int]
) -> None:
    """2600 px across are more than twice 1280, whatever the height, so that half of each side is enough."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = _photo(tmp_path / "a.jpg", size, exif=exif)
    decoded: set[tuple[int, int]] = set()
    prepare = JpegImagePlugin.JpegImageFile.load_prepare

    def noted(image: JpegImagePlugin.JpegImageFile) -> None:
        decoded.add(image.size)
        prepare(image)

    monkeypatch.setattr(JpegImagePlugin.JpegImageFile, "load_prepare", noted)
    assert remake(path, "a")[-1].width == 1280
    assert decoded == {(size[0] // 2, size[1] // 2)}


def test_a_broken_exif_block_does_not_cost_the_picture(tmp_path: Path) -> None:
    path = _photo(tmp_path / "a.jpg", exif=b"Exif\x00\x00II*\x00\xff\xff\xff\xff")
    assert look_at(path) is None
    assert remake(path, "a")


def test_a_broken_colour_profile_does_not_cost_the_picture(tmp_path: Path) -> None:
    assert remake(_photo(tmp_path / "a.jpg", icc_profile=b"no profile at all"), "a")


def test_a_profile_of_other_colours_is_converted_to_srgb(tmp_path: Path) -> None:
    """A neutral Lab-like shift would be silent; a linear profile is plain: middle grey 128 becomes about 188.

    Worked by hand: linear 128/255 = 0.502, sRGB of it is 1.055 * 0.502^(1/2.4) - 0.055 = 0.736, times 255 is 188.
    """
    linear = _linear_profile()
    Image.new("RGB", (300, 200), (128, 128, 128)).save(tmp_path / "a.png", icc_profile=linear)
    (made,) = remake(tmp_path / "a.png", "a")
    pixel = _open(made.data).getpixel((100, 100))
    assert isinstance(pixel, tuple)
    assert pixel[0] == pytest.approx(188, abs=3)


def _linear_profile() -> bytes:
    """sRGB's profile with its tone curves replaced by a straight line (an empty `curv` tag, ICC.1:2022 10.6)."""
    data = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    (count,) = struct.unpack(">I", data[128:132])
    for index in range(count):
        at = 132 + 12 * index
        tag, offset, _ = struct.unpack(">4sII", data[at : at + 12])
        if tag in {b"rTRC", b"gTRC", b"bTRC"}:
            data[offset : offset + 12] = b"curv" + bytes(8)
            data[at + 8 : at + 12] = struct.pack(">I", 12)
    return bytes(data)


def test_see_through_parts_come_to_lie_on_white(tmp_path: Path) -> None:
    Image.new("RGBA", (300, 200), (0, 0, 0, 0)).save(tmp_path / "a.png")
    (made,) = remake(tmp_path / "a.png", "a")
    assert _open(made.data).getpixel((50, 50)) == (255, 255, 255)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "CMYK", "I;16"])
def test_every_usual_mode_of_pixels_becomes_rgb(tmp_path: Path, mode: str) -> None:
    name = "a.jpg" if mode == "CMYK" else "a.png"
    Image.new(mode, (300, 200)).save(tmp_path / name)
    (made,) = remake(tmp_path / name, "a")
    assert _open(made.data).mode == "RGB"


def test_sixteen_bits_keep_their_brightness(tmp_path: Path) -> None:
    Image.new("I;16", (300, 200), 0x8000).save(tmp_path / "a.png")
    (made,) = remake(tmp_path / "a.png", "a")
    assert _open(made.data).getpixel((5, 5)) == (128, 128, 128)


def test_the_same_picture_gives_the_same_bytes(tmp_path: Path) -> None:
    path = _photo(tmp_path / "a.jpg", (1500, 900))
    assert remake(path, "a") == remake(path, "a")
