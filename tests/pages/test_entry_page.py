"""The page of one firing: whole for every kind of record, honest about what is missing, nothing hidden."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from builder.archive.archive import Record
from builder.checks.firing import Photo, Piece
from builder.heat.figures import FiringHeat, ProbeHeat
from builder.pages.entry_page import entry_page
from builder.publish.site import Page, Picture
from builder.readings.curve import FiringCurves
from tests.pages.invented import CURVES, FIGURES, FIRING, SETTINGS, archive, curve, quantity, record, unread
from tests.pages.reading_html import read, read_page

PICTURES = (Picture("photo-1-480.jpg", 480, 320, b""), Picture("photo-1-1280.jpg", 1280, 853, b""))


def page(one: Record, pictures: tuple[Picture, ...] = PICTURES) -> Page:
    return entry_page(one, archive(one), SETTINGS, pictures)


def three_probes() -> Record:
    curves = (curve(), curve("rim"), curve("foot", minutes=[0, 3, 11]))
    heat = FiringHeat(tuple(ProbeHeat(name, FIGURES) for name in ("wall", "rim", "foot")), 1)
    return record(curves=replace(CURVES, curves=curves, ware=1), heat=heat)


CASES = {
    "whole": record(),
    "no readings at all": unread(photos=()),
    "no readings but a photo": unread(),
    "three probes": three_probes(),
    "forty pots": record(pieces=tuple(Piece(f"pot {n}", "sound") for n in range(40))),
    "a long title": record(title="Donaudampfschifffahrtsgesellschaftskapitän " * 6),
    "no story": record(story=""),
    "one reading": record(curves=FiringCurves((curve(minutes=[3]),), 0, (), ())),
    "everything missing": unread(
        photos=(), story="", helpers=(), place=None, ware=None, lit=None, conditions={}, licence=None
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_every_kind_of_record_gives_sound_html(case: str) -> None:
    """Every tag is closed in its own part, no id stands twice, no style or script stands in it."""
    found = read_page(page(CASES[case]))
    assert found.faults == []
    assert len(found.ids()) == len(set(found.ids()))
    assert not [tag for tag in found.tags if "style" in tag.attributes or tag.name in ("style", "script")]
    assert not [name for tag in found.tags for name in tag.attributes if name.startswith("on")]


@pytest.mark.parametrize("case", CASES)
def test_every_part_that_is_named_by_a_heading_has_that_heading(case: str) -> None:
    found = read_page(page(CASES[case]))
    named = {tag.attributes["aria-labelledby"] for tag in found.tags if "aria-labelledby" in tag.attributes}
    assert {name for anchors in named for name in anchors.split()} <= set(found.ids())
    assert len(found.all("h1")) == 1


def test_the_story_alone_is_searched() -> None:
    made = page(record())
    assert "The wind dropped at nine." in read(made.prose).words
    assert "742" not in read(made.prose).words
    assert "The wind dropped at nine." not in read(made.lead).words + read(made.rest).words


def test_no_readings_are_said_as_such() -> None:
    words = read_page(page(unread())).words
    assert "No reading was written down at this fire" in words
    assert "readings.csv" not in page(unread()).rest


def test_conditions_that_nobody_recorded_are_named_in_one_line() -> None:
    found = read_page(page(record(conditions={"weather.air": quantity("14 °C", "temperature")})))
    line = next(tag.words for tag in found.all("p", "quiet") if tag.words.startswith("Not recorded"))
    assert "humidity, wind, days without rain" in line
    assert "all of clay" in line
    assert " air" not in line


def test_every_figure_stands_with_reckoning_interval_and_remark() -> None:
    rows = [tag.words for tag in read_page(page(record())).all("tr")]
    hottest = next(row for row in rows if row.startswith("Hottest"))
    assert "742\u00a0°C" in hottest
    assert "719 to 765" in hottest
    lag = next(row for row in rows if row.startswith("Lag of the wall"))
    assert "not known" in lag
    assert "The thickness of the wall was not recorded." in lag


def test_every_probe_has_its_figures_and_the_wares_come_first() -> None:
    found = read_page(page(three_probes()))
    assert found.all("caption")[0].words == "Of the probe that stands for the ware: rim"
    folded = [tag.words for tag in found.all("summary") if tag.words.startswith("Figures")]
    assert folded == ["Figures of the probe wall", "Figures of the probe foot"]


def test_readings_of_several_probes_share_one_table_by_time() -> None:
    """The foot was read at 0, 3 and 11 min, the others at 0, 2, 4.5, 9 and 12: seven times in all."""
    found = read_page(page(three_probes()))
    times = [tag.words for tag in found.all("th") if tag.attributes.get("scope") == "row" and ":" in tag.words]
    assert times == ["0:00", "2:00", "3:00", "4:30", "9:00", "11:00", "12:00"]


def test_what_was_dropped_is_listed_and_nothing_dropped_is_said_too() -> None:
    assert "6:00 A spike was dropped." in read_page(page(record())).words
    clean = record(curves=replace(CURVES, repairs=()))
    assert "No reading was dropped or repaired." in read_page(page(clean)).words


def test_each_pot_has_words_for_every_outcome_and_its_verdict() -> None:
    shelf = read(page(record()).lead).all("li")[-3:]
    jar, bowl, tiles = (" ".join(tag.words.split()) for tag in shelf)
    assert jar == "jar sound carbon cleared paint held clear ring 10YR 8/2 succeeded"
    assert bowl == "bowl cracked carbon cleared paint held did not succeed: survival"
    assert tiles == "test tiles × 4 sound carbon core paint not recorded did not succeed: carbon"


def test_a_munsell_colour_is_drawn_without_a_style() -> None:
    """10YR 8/2 has no value of its own in the references; that it is a light warm grey is what the notation means."""
    fill = next(tag.attributes["fill"] for tag in read(page(record()).lead).all("rect") if "fill" in tag.attributes)
    red, green, blue = (int(fill[place : place + 2], 16) for place in (1, 3, 5))
    assert 255 > red > green > blue > 150


def test_photos_come_in_sizes_with_words_and_load_late() -> None:
    image = read_page(page(record())).all("img")[0].attributes
    assert image["src"] == "2026-05-02-pale-jar/photo-1-480.jpg"
    assert image["srcset"] == "2026-05-02-pale-jar/photo-1-480.jpg 480w, 2026-05-02-pale-jar/photo-1-1280.jpg 1280w"
    assert (image["width"], image["height"], image["loading"]) == ("1280", "853", "lazy")
    assert image["alt"] == "The jar just drawn"
    assert page(record()).image == "firings/2026-05-02-pale-jar/photo-1-1280.jpg"


def test_the_tenth_photo_is_not_taken_for_the_first() -> None:
    photos = tuple(Photo(f"{n}.jpg", f"picture {n}") for n in range(1, 11))
    pictures = tuple(Picture(f"photo-{n}-480.jpg", 480, 320, b"") for n in range(1, 11))
    images = read_page(page(record(photos=photos), pictures)).all("img")
    assert (images[0].attributes["alt"], images[0].attributes["src"].split("/")[-1]) == ("picture 1", "photo-1-480.jpg")
    assert len(images) == 10


def test_neighbours_are_the_firings_before_and_after() -> None:
    records = [record(n, slug=f"f-{n}", title=f"Fire {n}") for n in (1, 2, 3)]
    shelf = archive(*records)
    links = [
        {tag.attributes["rel"]: tag.attributes["href"] for tag in read(made.rest).all("a") if "rel" in tag.attributes}
        for made in (entry_page(one, shelf, SETTINGS, ()) for one in records)
    ]
    assert links == [{"next": "f-2.html"}, {"prev": "f-1.html", "next": "f-3.html"}, {"prev": "f-2.html"}]


def test_a_long_log_is_thinned_on_the_page_and_says_so() -> None:
    long = curve(minutes=np.linspace(0, 300, 3000))
    found = read_page(page(record(curves=replace(CURVES, curves=(long,)))))
    assert len(found.all("details", "readings")[0].words.splitlines()) < 400
    assert any("of 3,000" in tag.words for tag in found.all("summary"))


def test_tags_name_people_method_ware_and_materials_once() -> None:
    assert page(record()).tags == (
        "Wren Oddie",
        "Ode Marrish",
        "Open fire on the ground",
        "pale-slipped jar",
        "Alder Fen",
        "red river clay",
        "hazel",
        "birch",
    )


def test_advice_points_to_its_caution() -> None:
    stones = record(conditions={**FIRING.conditions, "setting.support": "river stones"})
    links = [tag.attributes["href"] for tag in read(page(stones).rest).all("a")]
    assert "../cautions.html#stones" in links


def test_a_fahrenheit_condition_shows_both_values() -> None:
    words = read_page(page(record(conditions={"weather.air": quantity("57 °F", "temperature")}))).words
    assert "14\u00a0°C (written 57\u00a0°F)" in words


def test_a_probe_named_after_a_temperature_keeps_its_name_as_it_is() -> None:
    lead = page(record(curves=FiringCurves((curve("cone 600 °C"),), 0, (), ()))).lead
    assert "Probe cone 600 °C: " in lead
    assert 'hottest <span class="t" data-c="742">742\u00a0°C</span>' in lead
