"""The log beside the fire, on a phone: taps that last, time that is right after sleep, lines that can be mended."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPage
from tests.browser.phone import Serve, begin, lines, pass_minutes, phone, write_down


@pytest.fixture
def fireside(open_page: OpenPage, site_dir: Path) -> Page:
    return phone(open_page, (site_dir / "fireside.html").as_uri())


def change_first(page: Page) -> None:
    page.locator("[data-lines] button").first.click()


def test_a_tap_right_before_a_reload_is_never_lost(fireside: Page) -> None:
    begin(fireside)
    for number in range(8):
        fireside.get_by_role("button", name="Wood on", exact=True).click()
        fireside.reload()
        expect(fireside.locator("[data-lines] li")).to_have_count(min(number + 1, 6))
    assert lines(fireside)[:6] == ["wood on"] * 6


def test_elapsed_time_comes_from_moments_and_is_right_at_once_after_sleep(fireside: Page) -> None:
    begin(fireside)
    fireside.get_by_role("button", name="The main fire is lit").click()
    pass_minutes(fireside, 112)
    expect(fireside.locator("[data-since]")).to_have_text("1 h 52 min since lit")


def test_the_rate_of_rise_and_the_window_are_told_in_words(fireside: Page) -> None:
    """Window of the open fire in site_config.yml: 660 to 800 °C. Worked by hand: 600 to 720 in 2 min is 60 a minute,
    and the last half of that stretch, a minute, lies above 660."""
    begin(fireside)
    fireside.get_by_role("button", name="The main fire is lit").click()
    write_down(fireside, 600)
    expect(fireside.locator("[data-window-words]")).to_have_text("60 below the window, 660 to 800 °C")
    pass_minutes(fireside, 2)
    write_down(fireside, 720)
    expect(fireside.locator("[data-rate]")).to_have_text(re.compile("^rising (59|60) a minute$"))
    expect(fireside.locator("[data-window-words]")).to_have_text("In the window")
    expect(fireside.locator("[data-window-time]")).to_have_text("1.0 min so far")
    write_down_later(fireside, 860)
    expect(fireside.locator("[data-window-words]")).to_have_text("60 above the window, 660 to 800 °C")
    write_down_later(fireside, 780)
    pass_minutes(fireside, 11)
    expect(fireside.locator("[data-rate]")).to_contain_text("last read 11 min")
    expect(fireside.locator("[data-window-words]")).to_have_text("In the window when last read")


def write_down_later(page: Page, value: int) -> None:
    pass_minutes(page, 1)
    write_down(page, value)


def test_a_method_without_a_window_shows_none(fireside: Page) -> None:
    fireside.get_by_label("How it is fired").select_option("Turf clamp")
    begin(fireside)
    expect(fireside.locator("[data-window]")).to_be_hidden()


def test_steps_go_on_from_the_last_reading_and_the_button_says_what_it_will_write(fireside: Page) -> None:
    begin(fireside)
    write_down(fireside, 684)
    pass_minutes(fireside, 1)
    for name in ("10 more", "1 less", "1 less", "10 less", "1 more"):
        fireside.get_by_role("button", name=name).click()
    fireside.get_by_role("button", name="Write down 683 °C", exact=True).click()
    assert lines(fireside) == ["683 °C", "684 °C"]


def test_a_thumb_that_bounces_writes_once(fireside: Page) -> None:
    begin(fireside)
    fireside.locator("[data-write]").dblclick()
    expect(fireside.locator("[data-lines] li")).to_have_count(1)


def test_a_reading_that_no_fire_shows_cannot_be_written_down(fireside: Page) -> None:
    begin(fireside)
    fireside.locator("[data-value]").first.click()
    for figure in "6900":
        fireside.locator("#keypad").get_by_role("button", name=figure, exact=True).click()
    expect(fireside.get_by_text("6900 °C was never read off a wood fire.")).to_be_visible()
    fireside.locator("[data-write]").click()
    expect(fireside.locator("[data-lines] li")).to_have_count(0)


def test_a_reading_can_be_dated_back_before_it_is_written(fireside: Page) -> None:
    begin(fireside)
    pass_minutes(fireside, 10)
    for _ in range(3):
        fireside.get_by_role("button", name="A minute earlier").click()
    fireside.get_by_role("button", name="Write down 20 °C, 3 min ago").click()
    expect(fireside.locator(".line-time").first).to_have_text("12:07")
    expect(fireside.locator("[data-write]")).to_have_text("Write down 20 °C")


def test_a_line_is_changed_moved_taken_back_and_put_back(fireside: Page) -> None:
    begin(fireside)
    write_down(fireside, 300)
    change_first(fireside)
    fireside.get_by_label("When").fill("11:58:30")
    fireside.get_by_role("textbox", name="Reading").fill("305,5")
    fireside.get_by_role("button", name="Keep the change").click()
    assert lines(fireside) == ["305.5 °C"]
    fireside.reload()
    assert lines(fireside) == ["305.5 °C"]
    expect(fireside.locator(".line-time").first).to_have_text("11:58")
    change_first(fireside)
    fireside.get_by_role("button", name="Take back", exact=True).click()
    expect(fireside.locator("[data-temperature]")).to_have_text("–")
    fireside.reload()
    fireside.get_by_role("button", name="Put back").click()
    expect(fireside.locator("[data-temperature]")).to_contain_text("306")


def test_lighting_that_is_taken_back_lets_it_be_lit_again(fireside: Page) -> None:
    begin(fireside)
    fireside.get_by_role("button", name="The main fire is lit").click()
    expect(fireside.get_by_role("button", name="The main fire is lit")).to_be_hidden()
    change_first(fireside)
    fireside.get_by_role("button", name="Take back", exact=True).click()
    expect(fireside.get_by_role("button", name="The main fire is lit")).to_be_visible()
    expect(fireside.locator("[data-since]")).to_have_text("Not lit yet")


def test_several_thermometers_keep_their_own_readings_in_fahrenheit(fireside: Page, tmp_path: Path) -> None:
    begin(fireside, probes="wall, ash, wall", degrees="°F")
    expect(fireside.locator("[data-probes] label")).to_have_count(2)
    write_down(fireside, 1400)
    fireside.get_by_role("radio", name="ash").check()
    expect(fireside.locator("[data-temperature]")).to_have_text("–")
    pass_minutes(fireside, 1)
    write_down(fireside, 900)
    assert lines(fireside) == ["ash 900 °F", "wall 1400 °F"]
    fireside.get_by_role("button", name="The fire is over").click()
    with fireside.expect_download() as download:
        fireside.get_by_role("button", name="Save as a table").click()
    download.value.save_as(tmp_path / "table.csv")
    rows = list(csv.reader((tmp_path / "table.csv").read_text().splitlines()))
    assert rows[0] == ["time", "wall (°F)", "ash (°F)", "words"]
    assert [row[1:] for row in rows[1:]] == [["1400", "", ""], ["", "900", ""], ["", "", "the fire is over"]]


def test_own_words_become_a_button_of_this_fire(fireside: Page) -> None:
    begin(fireside)
    fireside.get_by_role("button", name="Something else").click()
    fireside.get_by_label("In your own words").fill("Tam fed the mouth")
    fireside.get_by_role("button", name="Write it down").click()
    fireside.get_by_role("button", name="Tam fed the mouth", exact=True).click()
    assert lines(fireside) == ["Tam fed the mouth"] * 2


def test_logs_are_kept_and_deleted_only_when_asked_twice(fireside: Page) -> None:
    begin(fireside, "First")
    fireside.get_by_role("button", name="Other logs").click()
    begin(fireside, "Second")
    fireside.get_by_role("button", name="Other logs").click()
    expect(fireside.locator("[data-kept] li")).to_have_count(2)
    fireside.get_by_role("button", name="Delete First").click()
    fireside.get_by_role("button", name="Keep it").click()
    fireside.get_by_role("button", name="Delete First").click()
    fireside.get_by_role("button", name="Delete for good").click()
    expect(fireside.locator("[data-kept] li")).to_have_count(1)
    fireside.reload()
    fireside.get_by_role("button", name="Other logs").click()
    expect(fireside.locator("[data-kept]")).to_contain_text("Second")
    expect(fireside.locator("[data-kept]")).not_to_contain_text("First")


def test_a_fire_that_is_over_can_go_on(fireside: Page) -> None:
    begin(fireside)
    fireside.get_by_role("button", name="The fire is over").click()
    expect(fireside.locator("[data-write]")).to_be_hidden()
    fireside.get_by_role("button", name="It goes on").click()
    expect(fireside.locator("[data-write]")).to_be_visible()


def test_the_cautions_follow_the_fire(fireside: Page) -> None:
    begin(fireside)
    expect(fireside.get_by_role("link", name="Fire rules, permits and the landowner")).to_be_visible()
    fireside.get_by_role("button", name="The main fire is lit").click()
    expect(fireside.get_by_role("link", name="Steam in damp pots")).to_be_visible()
    expect(fireside.get_by_role("link", name="Fire rules, permits and the landowner")).to_be_hidden()
    fireside.get_by_role("button", name="The fire is over").click()
    expect(fireside.get_by_role("link", name="A watch until the ash is cold")).to_be_visible()


_REFUSES = {
    "the database alone": "Object.defineProperty(window, 'indexedDB', {get() { throw new Error('refused'); }});",
    "both": "Object.defineProperty(window, 'indexedDB', {get() { throw new Error('refused'); }});"
    "Object.defineProperty(window, 'localStorage', {get() { throw new Error('refused'); }});",
}


def test_without_the_database_the_small_storage_keeps_the_log(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page("about:blank", width=360)
    page.context.add_init_script(_REFUSES["the database alone"])
    page.goto((site_dir / "fireside.html").as_uri())
    begin(page)
    page.get_by_role("button", name="Wood on", exact=True).click()
    page.reload()
    assert lines(page) == ["wood on"]
    expect(page.locator("[data-trouble]")).to_be_hidden()


def test_where_nothing_can_be_kept_the_page_says_so_and_still_logs(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page("about:blank", width=360)
    page.context.add_init_script(_REFUSES["both"])
    page.goto((site_dir / "fireside.html").as_uri())
    begin(page)
    page.get_by_role("button", name="Wood on", exact=True).click()
    assert lines(page) == ["wood on"]
    expect(page.locator("[data-trouble]")).to_contain_text("This browser keeps nothing on the device")
    expect(page.locator("[data-fire-kept]")).to_have_text("not kept")


def test_a_full_device_is_told_and_the_line_kept_once_there_is_room(fireside: Page) -> None:
    """The database refuses a write as a full disk makes it refuse; the small storage refuses too."""
    begin(fireside)
    fireside.evaluate(
        """() => {
          const full = () => { throw new DOMException("full", "QuotaExceededError"); };
          window.realTransaction = IDBDatabase.prototype.transaction;
          window.realSet = Storage.prototype.setItem;
          IDBDatabase.prototype.transaction = function (shelves, mode) {
            return mode === "readwrite" ? full() : window.realTransaction.apply(this, arguments);
          };
          Storage.prototype.setItem = full;
        }"""
    )
    fireside.get_by_role("button", name="Wood on", exact=True).click()
    expect(fireside.locator("[data-trouble]")).to_contain_text("its storage is full")
    fireside.evaluate(
        """() => {
          IDBDatabase.prototype.transaction = window.realTransaction;
          Storage.prototype.setItem = window.realSet;
        }"""
    )
    fireside.get_by_role("button", name="Try again").click()
    expect(fireside.locator("[data-trouble]")).to_be_hidden()
    fireside.reload()
    assert lines(fireside) == ["wood on"]


def test_two_windows_on_one_log_do_not_lose_each_other_s_lines(
    open_page: OpenPage, site_dir: Path, serve: Serve
) -> None:
    first = open_page(f"{serve(site_dir)}fireside.html", width=360)
    begin(first)
    first.get_by_role("button", name="Wood on", exact=True).click()
    second = first.context.new_page()
    second.goto(first.url)
    second.get_by_role("button", name="Heard a crack").click()
    expect(first.locator("[data-lines] li")).to_have_count(2)
    first.get_by_role("button", name="Raked open").click()
    expect(second.locator("[data-lines] li")).to_have_count(3)
    second.reload()
    assert lines(second) == ["raked open", "heard a crack", "wood on"]


def test_without_scripts_the_page_says_how_to_keep_a_log_on_paper(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "fireside.html").as_uri(), width=360, scripts=False)
    expect(page.get_by_role("heading", name="On paper")).to_be_visible()
    expect(page.locator("[data-fireside]")).to_be_hidden()


@pytest.fixture(params=[320, 360, 768, 1280])
def burning(request: pytest.FixtureRequest, open_page: OpenPage, site_dir: Path) -> Iterator[Page]:
    """A fire with a long title and some lines, at a width."""
    page = open_page((site_dir / "fireside.html").as_uri(), width=request.param)
    begin(page, "Blassgeschlemmtes Vorratsgefäß, dreizehnter Versuch nach Regen", probes="Gefäßwandinnenseite, ash")
    page.get_by_role("button", name="The main fire is lit").click()
    write_down(page, 735)
    page.get_by_role("button", name="Flames over the rim").click()
    page.locator("[data-value]").first.click()
    yield page


def test_at_every_width_the_log_fits_and_its_buttons_are_large(burning: Page) -> None:
    width = burning.viewport_size["width"]  # type: ignore[index]
    assert burning.evaluate("document.documentElement.scrollWidth") <= width
    small = burning.evaluate(
        """() => [...document.querySelectorAll(".fire-hand button, .fire-probes label, [data-over], [data-close]")]
          .filter((one) => one.offsetParent)
          .map((one) => [one.textContent, one.offsetWidth, one.offsetHeight])
          .filter(([, width, height]) => width < 64 || height < 64)"""
    )
    assert small == []


def test_the_reading_is_written_without_scrolling_on_a_small_phone(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "fireside.html").as_uri(), width=360)
    page.set_viewport_size({"width": 360, "height": 740})
    begin(page)
    page.get_by_role("button", name="The main fire is lit").click()
    box = page.locator("[data-write]").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= 740


def test_the_keys_leave_the_button_that_writes_in_sight(open_page: OpenPage, site_dir: Path) -> None:
    page = open_page((site_dir / "fireside.html").as_uri(), width=320)
    page.set_viewport_size({"width": 320, "height": 568})
    begin(page, probes="wall, ash")
    page.evaluate("scrollTo(0, 0)")
    page.evaluate("document.querySelector('[data-value]').click()")
    box, value = page.locator("[data-write]").bounding_box(), page.locator("[data-value]").bounding_box()
    assert box is not None
    assert value is not None
    assert value["y"] >= 0
    assert box["y"] + box["height"] <= 568


def test_a_reading_on_the_wrong_thermometer_is_moved_to_the_right_one(fireside: Page) -> None:
    begin(fireside, probes="wall, ash")
    write_down(fireside, 300)
    change_first(fireside)
    fireside.locator(".line-form").get_by_role("combobox", name="Thermometer").select_option("ash")
    fireside.get_by_role("button", name="Keep the change").click()
    assert lines(fireside) == ["ash 300 °C"]
    change_first(fireside)
    fireside.get_by_role("textbox", name="Reading").fill("3000")
    fireside.get_by_role("button", name="Keep the change").click()
    expect(fireside.locator(".line-form [role=alert]")).to_contain_text("3000 °C was never read off a wood fire.")


def test_a_log_opens_again_on_the_thermometer_that_was_last_read(fireside: Page) -> None:
    begin(fireside, probes="wall, ash")
    fireside.get_by_role("radio", name="ash").check()
    write_down(fireside, 250)
    fireside.reload()
    expect(fireside.get_by_role("radio", name="ash")).to_be_checked()
    fireside.get_by_role("radio", name="wall").check()
    fireside.get_by_role("button", name="Other logs").click()
    fireside.get_by_role("button", name="Go on").click()
    expect(fireside.get_by_role("radio", name="ash")).to_be_checked()
    write_down(fireside, 260)
    assert lines(fireside) == ["ash 260 °C", "ash 250 °C"]


def test_a_new_log_offers_what_the_last_one_had_and_a_title_of_its_own(fireside: Page) -> None:
    fireside.get_by_label("How it is fired").select_option("Trench")
    begin(fireside, "First", probes="wall, ash", degrees="°F")
    fireside.reload()
    fireside.get_by_role("button", name="Other logs").click()
    expect(fireside.get_by_label("What is in the fire")).to_have_value("")
    expect(fireside.get_by_label("How it is fired")).to_have_value("trench")
    expect(fireside.get_by_label("Thermometers")).to_have_value("wall, ash")
    expect(fireside.get_by_role("radio", name="°F")).to_be_checked()


def test_a_line_that_was_dated_back_is_the_one_that_one_tap_takes_back(fireside: Page) -> None:
    begin(fireside)
    pass_minutes(fireside, 5)
    write_down(fireside, 400)
    pass_minutes(fireside, 1)
    for _ in range(3):
        fireside.get_by_role("button", name="A minute earlier").click()
    write_down(fireside, 300)
    fireside.get_by_role("button", name=re.compile("^Take back")).click()
    expect(fireside.locator("[data-lines] .gone")).to_contain_text("300 °C")


def test_the_last_line_is_taken_back_with_one_tap(fireside: Page) -> None:
    begin(fireside)
    write_down(fireside, 300)
    fireside.get_by_role("button", name="Raked open", exact=True).click()
    fireside.get_by_role("button", name=re.compile("^Take back .*raked open")).click()
    fireside.get_by_role("button", name=re.compile("^Take back .*300 °C")).click()
    expect(fireside.locator("[data-lines] .gone")).to_have_count(2)
