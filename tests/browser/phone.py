"""A phone beside a fire, for tests: a narrow touch screen with a clock that the test moves."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import PIL.Image
from playwright.sync_api import Page

from tests.browser.conftest import OpenPage

NOON = "2026-06-13T12:00:00+12:00"
"""When tests begin, on the phone's own clock."""


def phone(open_page: OpenPage, address: str, width: int = 360, **options: object) -> Page:
    """Open an address on a phone whose clock stands at noon."""
    page = open_page(address, width=width, is_mobile=True, has_touch=True, timezone_id="Pacific/Auckland", **options)
    page.clock.install(time=NOON)
    page.reload()
    return page


def begin(page: Page, title: str = "Pale jar", probes: str = "wall", degrees: str = "°C") -> None:
    """Begin a log."""
    page.get_by_label("What is in the fire").fill(title)
    page.get_by_label("Thermometers").fill(probes)
    page.get_by_role("radio", name=degrees).check()
    page.get_by_role("button", name="Begin the log").click()


def write_down(page: Page, value: int) -> None:
    """Type a reading on the page's own keys, and write it down."""
    page.locator("[data-value]").first.click()
    for figure in str(value):
        page.locator("#keypad").get_by_role("button", name=figure, exact=True).click()
    page.get_by_role("button", name=f"Write down {value} ").click()


def pass_minutes(page: Page, minutes: float) -> None:
    """Let time pass as it does for a phone that sleeps: timers that were due ring once, late."""
    page.clock.fast_forward(int(minutes * 60_000))


def lines(page: Page) -> list[str]:
    """What the log shows, newest first; waits for the first."""
    page.locator("[data-lines] li").first.wait_for()
    return [" ".join(words.split()) for words in page.locator("[data-lines] .line-what").all_inner_texts()]


def photograph(size: tuple[int, int] = (2400, 1800)) -> bytes:
    """A photo as a camera makes it, with the place in its metadata and a left half that is red."""
    image = PIL.Image.new("RGB", size, (200, 40, 20))
    image.paste((30, 90, 60), (size[0] // 2, 0, *size))
    exif = PIL.Image.Exif()
    exif[0x010F] = "A camera"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (52.0, 30.0, 0.0)
    out = io.BytesIO()
    image.save(out, "JPEG", exif=exif)
    return out.getvalue()


Serve = Callable[[Path], str]
