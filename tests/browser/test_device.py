"""What the device itself lends a page: sending a file on, and a screen that stays on; with devices that are made up."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import OpenPage
from tests.browser.phone import begin, phone

_SENDER = """
  window.sent = [];
  navigator.canShare = ({files}) => files.every((one) => one instanceof File);
  navigator.share = async ({files, title}) => {
    if ("%s") throw new DOMException("not this time", "%s");
    window.sent.push({title, name: files[0].name, type: files[0].type, size: files[0].size});
  };
"""
_WAKE_LOCK = """
  window.locks = [];
  Object.defineProperty(navigator, "wakeLock", {value: {async request(kind) {
    if (%s) throw new DOMException("battery low", "NotAllowedError");
    const lock = new EventTarget();
    lock.kind = kind;
    lock.held = true;
    lock.release = async () => { lock.held = false; lock.dispatchEvent(new Event("release")); };
    window.locks.push(lock);
    return lock;
  }}});
"""
_HELD = "() => window.locks.filter((lock) => lock.held).map((lock) => lock.kind)"
_SEEN = """(state) => {
  Object.defineProperty(document, "visibilityState", {value: state, configurable: true});
  document.dispatchEvent(new Event("visibilitychange"));
}"""


def with_device(page: Page, script: str) -> Page:
    """Open the page again on a device of which a script is the part that counts."""
    page.add_init_script(script)
    page.reload()
    return page


def until_held(page: Page, count: int) -> None:
    """Wait until so many locks are held; the page's policy forbids a browser to wait for words of a script itself."""
    for _ in range(200):
        if len(page.evaluate(_HELD)) == count:
            return
        page.wait_for_timeout(20)
    raise AssertionError(f"not {count} held: {page.evaluate(_HELD)}")


def a_made_file(open_page: OpenPage, site_dir: Path, script: str) -> Page:
    """A form filled in with what is needed, and its file made."""
    page = with_device(open_page((site_dir / "write-up.html").as_uri(), width=360), script)
    page.get_by_label("Title").fill("Pale jar")
    page.get_by_label("Potter").select_option("Wren Oddie")
    page.get_by_label("Method").select_option("Shallow pit")
    page.get_by_label("Date").fill("2026-06-13")
    piece = page.locator('[data-list="pieces"] [data-item]')
    piece.get_by_label("Name").fill("jar")
    piece.get_by_role("radio", name="sound", exact=True).check()
    page.get_by_role("button", name="Make the file").click()
    expect(page.get_by_role("button", name="Save the file")).to_be_visible()
    return page


def send(page: Page) -> None:
    page.get_by_role("button", name="Send it").click()


def test_a_file_is_handed_to_the_program_that_the_potter_picks(open_page: OpenPage, site_dir: Path) -> None:
    page = a_made_file(open_page, site_dir, _SENDER % ("", ""))
    send(page)
    expect(page.locator("[data-share-words]")).to_have_text("Handed to the program you picked.")
    (sent,) = page.evaluate("window.sent")
    name = "2026-06-13-pale-jar.zip"
    assert (sent["title"], sent["name"], sent["type"]) == (name, name, "application/zip")
    assert sent["size"] > 100


def test_who_thinks_better_of_it_is_told_nothing_and_may_try_again(open_page: OpenPage, site_dir: Path) -> None:
    page = a_made_file(open_page, site_dir, _SENDER % ("AbortError", "AbortError"))
    send(page)
    expect(page.locator("[data-share-words]")).to_have_text("")
    expect(page.get_by_role("button", name="Send it")).to_be_visible()


def test_a_browser_that_promised_and_then_refuses_says_so_and_saving_is_left(
    open_page: OpenPage, site_dir: Path
) -> None:
    """Some browsers say that they can share files, and then let no zip file out."""
    page = a_made_file(open_page, site_dir, _SENDER % ("NotAllowedError", "NotAllowedError"))
    send(page)
    expect(page.locator("[data-share-words]")).to_contain_text("Save it, then send it")
    expect(page.get_by_role("button", name="Send it")).to_be_hidden()
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the file").click()
    assert download.value.suggested_filename == "2026-06-13-pale-jar.zip"


@pytest.mark.parametrize(
    "script",
    [
        "delete Navigator.prototype.canShare; delete Navigator.prototype.share",
        "navigator.canShare = () => false",
        "navigator.canShare = () => { throw new TypeError('no files') }",
    ],
    ids=["no sharing at all", "no files", "an old one that throws"],
)
def test_a_device_that_cannot_send_files_offers_no_button_for_it(
    open_page: OpenPage, site_dir: Path, script: str
) -> None:
    page = a_made_file(open_page, site_dir, script)
    expect(page.get_by_role("button", name="Send it")).to_be_hidden()


@pytest.fixture
def awake(open_page: OpenPage, site_dir: Path) -> Page:
    """A phone that keeps its screen on when asked, with a log begun."""
    page = with_device(phone(open_page, (site_dir / "fireside.html").as_uri()), _WAKE_LOCK % "false")
    begin(page)
    return page


def test_the_screen_stays_on_while_a_log_is_kept_and_no_longer(awake: Page) -> None:
    until_held(awake, 1)
    assert awake.evaluate(_HELD) == ["screen"]
    awake.get_by_role("button", name="The fire is over").click()
    until_held(awake, 0)
    awake.get_by_role("button", name="It goes on").click()
    until_held(awake, 1)


def test_the_switch_lets_the_screen_go_dark(awake: Page) -> None:
    until_held(awake, 1)
    awake.get_by_label("Keep the screen on").uncheck()
    until_held(awake, 0)
    awake.get_by_label("Keep the screen on").check()
    until_held(awake, 1)


def test_the_screen_is_kept_on_again_when_the_page_comes_back_into_sight(awake: Page) -> None:
    """A browser lets go of the lock by itself when another program is in front."""
    until_held(awake, 1)
    awake.evaluate("window.locks[0].release()")
    awake.evaluate(_SEEN, "hidden")
    assert awake.evaluate(_HELD) == []
    awake.evaluate(_SEEN, "visible")
    until_held(awake, 1)
    assert awake.evaluate("window.locks.length") == 2


def test_two_wishes_at_once_take_one_lock(awake: Page) -> None:
    until_held(awake, 1)
    awake.get_by_label("Keep the screen on").uncheck()
    until_held(awake, 0)
    awake.evaluate("Promise.all([screenAwake.keep(true), screenAwake.keep(true)])")
    assert awake.evaluate(_HELD) == ["screen"]
    awake.evaluate("Promise.all([screenAwake.keep(false), screenAwake.keep(true), screenAwake.keep(false)])")
    assert awake.evaluate(_HELD) == []


def test_a_browser_that_will_not_keep_the_screen_on_says_so(open_page: OpenPage, site_dir: Path) -> None:
    page = with_device(phone(open_page, (site_dir / "fireside.html").as_uri()), _WAKE_LOCK % "true")
    begin(page)
    expect(page.locator("[data-awake-words]")).to_contain_text("The screen may go dark")


def test_a_browser_that_knows_no_such_thing_says_so(open_page: OpenPage, site_dir: Path) -> None:
    page = phone(open_page, (site_dir / "fireside.html").as_uri())
    with_device(page, "delete Navigator.prototype.wakeLock")
    begin(page)
    expect(page.locator("[data-awake-words]")).to_contain_text("This browser cannot keep the screen on")
