"""From the fire to the archive: logged without a signal, written up, handed over, taken in, and found on the site."""

from __future__ import annotations

import io
import re
import shutil
import zipfile
from pathlib import Path

import PIL.Image
import pytest
from playwright.sync_api import Page, expect

from builder.build import Options, build
from builder.commands.cli import main
from builder.entries.find import EntryFile, entry_at
from builder.examine import examine
from builder.settings_file import load_settings
from tests.browser.conftest import PROJECT, OpenPage
from tests.browser.phone import Serve, begin, lines, pass_minutes, phone, photograph, write_down

SLUG = "2026-06-13-pale-jar-the-thirteenth-again"


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small archive with one firing in it, built."""
    folder = tmp_path_factory.mktemp("small-archive")
    shutil.copy2(PROJECT / "site_config.yml", folder)
    one = "content/firings/2026-09-05-pale-jar-twelfth"
    shutil.copytree(PROJECT / one, folder / one)
    assert build(Options(folder, folder / "site")).published == 1
    return folder


def log_a_fire(page: Page) -> None:
    """Eight readings a minute apart, a happening, a sleep of twenty minutes and a reload in the middle."""
    begin(page, 'Pale jar: the "thirteenth", again')
    page.get_by_role("button", name="The main fire is lit").click()
    for value in (20, 210, 430, 640):
        write_down(page, value)
        pass_minutes(page, 1)
    page.get_by_role("button", name="Flames over the rim").click()
    page.reload()
    for value in (735, 770):
        write_down(page, value)
        pass_minutes(page, 1)
    pass_minutes(page, 20)
    expect(page.locator("[data-since]")).to_have_text(re.compile(r"^26 min \d+ s since lit$"))
    write_down(page, 310)
    page.get_by_role("button", name="Raked open").click()
    page.get_by_role("button", name="The fire is over").click()


def write_it_up(page: Page) -> None:
    page.get_by_role("link", name="Write it up").click()
    expect(page.get_by_label("Title")).to_have_value('Pale jar: the "thirteenth", again')
    expect(page.locator("[data-curve-words]")).to_contain_text("7 readings, hottest 770 °C")
    page.get_by_label("Potter").select_option("Wren Oddie")
    page.get_by_text("Clay", exact=True).click()
    page.get_by_label("Clay body").fill("hill red")
    page.get_by_label("Wall", exact=True).fill("6 mm")
    piece = page.locator('[data-list="pieces"] [data-item]')
    piece.get_by_label("Name").fill("jar, the NO one 🔥")
    piece.get_by_role("radio", name="sound", exact=True).check()
    piece.get_by_role("radio", name="cleared").check()
    page.locator("[data-photos]").set_input_files(
        {"name": "IMG_0001.JPG", "mimeType": "image/jpeg", "buffer": photograph()}
    )
    page.get_by_label("Alt").fill("The jar just drawn, red on its left")
    page.get_by_label("The story").fill("Over in half an hour.\n\n---\n\nAgain: drier wood.")


def make_file(page: Page, folder: Path) -> Path:
    page.get_by_role("button", name="Make the file").click()
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the file").click()
    target = folder / download.value.suggested_filename
    download.value.save_as(target)
    return target


def test_a_firing_logged_offline_is_written_up_handed_over_and_found_on_the_site(
    open_page: OpenPage, archive: Path, serve: Serve, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = phone(open_page, f"{serve(archive / 'site')}fireside.html")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.context.set_offline(True)
    page.reload()
    log_a_fire(page)
    write_it_up(page)
    zipped = make_file(page, tmp_path)

    with zipfile.ZipFile(zipped) as file:
        assert file.testzip() is None
        assert file.namelist() == [f"{SLUG}/entry.md", f"{SLUG}/photo-1.jpg"]
        photo = PIL.Image.open(io.BytesIO(file.read(f"{SLUG}/photo-1.jpg")))
    assert photo.size == (1600, 1200)
    assert dict(photo.getexif()) == {}
    assert photo.convert("RGB").getpixel((100, 600)) == pytest.approx((200, 40, 20), abs=6)

    assert main(["accept", "--project", str(archive), str(zipped)]) == 0, capsys.readouterr()
    settings, _ = load_settings(archive)
    entry = entry_at(archive / "content" / "firings" / SLUG, archive)
    assert settings is not None
    assert isinstance(entry, EntryFile)
    found = examine(entry, settings)
    assert found.problems == ()
    assert found.measured is not None
    firing, curves = found.measured.firing, found.measured.curves
    assert firing.title == 'Pale jar: the "thirteenth", again'
    assert firing.pieces[0].name == "jar, the NO one 🔥"
    assert firing.story.strip() == "Over in half an hour.\n\n---\n\nAgain: drier wood."
    assert firing.lit == "12:00"
    assert [round(float(value)) for value in curves.curves[0].celsius] == [20, 210, 430, 640, 735, 770, 310]
    assert [round(float(minutes)) for minutes in curves.curves[0].minutes] == [0, 1, 2, 3, 4, 5, 26]
    assert [event.words for event in curves.events] == ["lit", "flames over the rim", "raked open", "the fire is over"]

    assert build(Options(archive, archive / "site")).published == 2
    page.context.set_offline(False)
    page.goto(f"{serve(archive / 'site')}firings/{SLUG}.html")
    expect(page.get_by_role("heading", level=1)).to_contain_text('Pale jar: the "thirteenth", again')
    expect(page.locator("main")).to_contain_text(re.compile(r"770\s*°C"))
    expect(page.get_by_alt_text("The jar just drawn, red on its left").first).to_be_visible()


def test_the_same_from_a_folder_without_any_server(open_page: OpenPage, archive: Path, tmp_path: Path) -> None:
    page = phone(open_page, (archive / "site" / "fireside.html").as_uri())
    log_a_fire(page)
    assert lines(page)[:3] == ["the fire is over", "raked open", "310 °C"]
    write_it_up(page)
    with zipfile.ZipFile(make_file(page, tmp_path)) as file:
        text = file.read(f"{SLUG}/entry.md").decode()
    assert re.search(r"^    0:04:\d\d 735 °C$", text, re.MULTILINE)
    assert re.search(r"^    0:04:\d\d - flames over the rim$", text, re.MULTILINE)


def test_a_pasted_table_becomes_a_readings_file_that_reads_back(
    open_page: OpenPage, archive: Path, tmp_path: Path
) -> None:
    """Times of the day that pass midnight; a probe that missed one; the curve begins at the row marked lit."""
    page = phone(open_page, (archive / "site" / "write-up.html").as_uri())
    page.get_by_label("Title").fill("Night trench")
    page.get_by_label("Potter").select_option("Ode Marrish")
    page.get_by_label("Method").select_option("Trench")
    page.get_by_label("Date").fill("2026-06-13")
    page.locator('[data-list="pieces"]').get_by_label("Name").fill("pot")
    page.locator('[data-list="pieces"]').get_by_role("radio", name="cracked").check()
    page.get_by_role("radio", name="In a table").check()
    rows = [
        "clock\twall °F\tash °F\tnotes",
        "23:40\t60\t60\t",
        "23:50\t70\t80\tlit",
        "0:10\t400\t\twood on",
        "0:40\t1400\t900\t",
    ]
    page.get_by_label("Or paste the table here").fill("\n".join(rows))
    expect(page.locator("[data-curve-words]")).to_contain_text("wall: 4 readings, hottest 1400 °F at 50 min")
    with zipfile.ZipFile(make_file(page, tmp_path)) as file:
        assert file.namelist()[1] == "2026-06-13-night-trench/readings.csv"
        file.extractall(tmp_path)
    settings, _ = load_settings(archive)
    entry = entry_at(tmp_path / "2026-06-13-night-trench", tmp_path)
    assert settings is not None
    assert isinstance(entry, EntryFile)
    found = examine(entry, settings)
    assert found.problems == ()
    assert found.measured is not None
    wall, ash = found.measured.curves.curves
    assert wall.probe.name == "wall"
    assert wall.minutes.round(6).tolist() == [0, 20, 50]
    assert wall.celsius.round().tolist() == [21, 204, 760]  # 70, 400 and 1400 °F, worked by hand
    assert ash.minutes.round(6).tolist() == [0, 50]
