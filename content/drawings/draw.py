"""Draw every picture of the demo archive: `python content/drawings/draw.py [--to FOLDER]`.

Each picture is one function under its firing's folder and file name. The wobble of the hand is seeded with that
name, so the same program draws the same picture.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

import hearths as h
from pen import ASH, PAPER, Pen
from pots import Pot, shelf, sherds, stone_and_arrow
from tiles import Tile, rows_of_tiles

FIRINGS = Path(__file__).resolve().parent.parent / "firings"
WHITE = (252, 251, 247)
RED = (214, 170, 140)


def _nineteen_pieces(pen: Pen) -> None:
    sherds(pen, (80, 60, 1120, 740), 19, 5)


def _tile_rows(pen: Pen) -> None:
    rows_of_tiles(
        pen,
        (
            (Tile(), Tile(), Tile("flake"), Tile("crack")),
            (Tile(), Tile(), Tile("core"), Tile("core")),
            (Tile("core"), Tile("crack"), Tile("soot"), Tile("flake")),
        ),
        ("shell", "sherd", "sand"),
    )


def _wind_from_the_west(pen: Pen) -> None:
    h.ground(pen)
    h.wind(pen, 250, 560)
    h.bricks(pen, (560, 640, 730), h.GROUND - 22)
    h.cone_of_sticks(pen, 660, 480, 400, 60, lean=110, bare=0.34)
    h.standing(pen, "jar", (600, h.GROUND - 24), 215)
    h.standing(pen, "dish", (752, h.GROUND - 24), 56)
    h.flames(pen, 740, 190, 300, lean=170)


def _three_probes(pen: Pen) -> None:
    h.ground(pen, (260, 940, 110))
    floor = h.GROUND + 110
    h.cone_of_sticks(pen, 600, 600, 470, 60, base=floor - 14)
    h.bricks(pen, (400, 470, 540, 600, 665, 730, 800), floor - 24)
    for x in (430, 545, 660, 775):
        h.standing(pen, "bowl", (x, floor - 26), 78)
    h.sherd_roof(pen, 600, 520, 250, 9, base=floor - 20)
    h.probe(pen, (545, floor - 60), (1010, 470), "B")
    h.probe(pen, (640, floor - 190), (1010, 380), "S")
    h.probe(pen, (600, floor - 6), (1010, 560), "F")


def _kiln_in_section(pen: Pen) -> None:
    h.ground(pen)
    h.kiln(pen)
    for x in (490, 615, 735):
        h.standing(pen, "bowl", (x, 498), 66, upside_down=False)
    for x in (505, 575, 650, 722):
        h.standing(pen, "lamp", (x, 428), 42, upside_down=False)
    pen.words((290, 510), "mouth", 22)
    pen.words((930, 400), "turf", 22)


def _very_clean_jar(pen: Pen) -> None:
    shelf(pen, (Pot("jar", 600, "zigzag", "ghost", colour=WHITE),), 700)


def _trench_section(pen: Pen) -> None:
    h.ground(pen, (90, 1110, 120))
    floor = h.GROUND + 120
    h.bricks(pen, (230, 330, 430, 530, 630, 730, 880, 940), floor - 24)
    for x in (240, 340, 440, 540, 640, 740):
        h.thick_ring(pen, (x, floor - 66), 40)
    h.standing(pen, "pot", (905, floor - 26), 110)
    h.logs(pen, tuple(range(190, 1040, 62)), floor - 168, 30)
    h.logs(pen, tuple(range(222, 1000, 62)), floor - 222, 28)


def _jar_and_stone(pen: Pen) -> None:
    shelf(pen, (Pot("jar", 540, "zigzag", "held", "foot", WHITE),))
    stone_and_arrow(pen, (1040, 660))


def _setting(pen: Pen) -> None:
    h.ground(pen)
    h.bricks(pen, (500, 560, 640, 700), h.GROUND - 22)
    h.standing(pen, "small jar", (530, h.GROUND - 24), 150)
    h.standing(pen, "small jar", (670, h.GROUND - 24), 146)
    h.cone_of_sticks(pen, 590, 460, 460, 44)
    h.probe(pen, (548, h.GROUND - 90), (930, 420), "left")
    h.probe(pen, (690, h.GROUND - 84), (950, 500), "right")


def _two_jars(pen: Pen) -> None:
    shelf(
        pen,
        (
            Pot("small jar", 410, "leaves", "held", colour=WHITE),
            Pot("small jar", 400, "leaves", "held", "flake", (238, 234, 224)),
        ),
    )


def _midsummer(pen: Pen) -> None:
    h.ground(pen)
    h.bricks(pen, tuple(range(270, 950, 84)), h.GROUND - 22)
    for x, form, size in (
        (270, "cup", 70), (345, "bowl", 74), (432, "dish", 52), (520, "cup", 76), (604, "dish", 54),
        (692, "bowl", 78), (776, "cup", 72), (852, "bowl", 72), (938, "dish", 50),
    ):  # fmt: skip
        h.standing(pen, form, (x, h.GROUND - 24), size)
    h.cone_of_sticks(pen, 604, 820, 420, 80)
    h.probe(pen, (604, h.GROUND - 60), (1060, 380), "middle")
    h.probe(pen, (935, h.GROUND - 60), (1090, 480), "edge")


def _faded(pen: Pen) -> None:
    shelf(pen, (Pot("jar", 600, "zigzag", "faded", colour=WHITE),), 700)


def _tuesday(pen: Pen) -> None:
    shelf(pen, (Pot("pot", 260, colour=RED), Pot("pot", 250, colour=RED)), 400)
    sherds(pen, (150, 440, 590, 760), 9, 4, lumps=True)
    sherds(pen, (620, 440, 1060, 760), 8, 4, lumps=True)


def _round_the_belly(pen: Pen) -> None:
    shelf(pen, (Pot("jar", 600, "zigzag", "held", "belly", WHITE),), 700)


def _hairline(pen: Pen) -> None:
    shelf(pen, (Pot("jar", 600, "zigzag", "held", "hairline", WHITE),), 700)


def _upper_rungs(pen: Pen) -> None:
    rows_of_tiles(
        pen,
        (
            (
                Tile("", "held", WHITE), Tile("", "held", WHITE), Tile("", "faded", WHITE),
                Tile("crack", "faded", WHITE), Tile("", "none", WHITE), Tile("broken", "held", WHITE),
            ),
        ),
    )  # fmt: skip


def _tenth(pen: Pen) -> None:
    shelf(pen, (Pot("jar", 620, "zigzag", "held", colour=WHITE),), 705)


def _how_it_stood(pen: Pen) -> None:
    h.ground(pen)
    h.bricks(pen, (500, 585, 670), h.GROUND - 22)
    h.standing(pen, "jar", (570, h.GROUND - 24), 215)
    h.standing(pen, "cup", (700, h.GROUND - 24), 78)
    h.cone_of_sticks(pen, 600, 500, 470, 34)
    pen.words((910, 330), "gaps", 26)


def _clamp(pen: Pen) -> None:
    h.ground(pen)
    for x, form, size in (
        (490, "pot", 130),
        (640, "pot", 136),
        (395, "lamp", 50),
        (560, "lamp", 50),
        (740, "lamp", 52),
    ):
        h.standing(pen, form, (x, h.GROUND - 12), size, fill=ASH)
    h.turf_mound(pen, 570, 560, 210)
    h.smoke(pen, (570, h.GROUND - 215), 210)


def _rota(pen: Pen) -> None:
    h.ground(pen)
    h.bricks(pen, (390, 465, 540, 615, 690, 765, 830), h.GROUND - 22)
    for x, form, size in (
        (380, "bowl", 74), (460, "cup", 72), (538, "bowl", 80), (622, "dish", 54), (702, "bowl", 76),
        (776, "cup", 70), (848, "dish", 50),
    ):  # fmt: skip
        h.standing(pen, form, (x, h.GROUND - 24), size)
    h.cone_of_sticks(pen, 610, 620, 400, 60)
    for x in (150, 1060):
        h.cone_of_sticks(pen, x, 130, 110, 16)
        h.smoke(pen, (x, h.GROUND - 120), 120)


def _twelfth(pen: Pen) -> None:
    shelf(
        pen,
        (Pot("jar", 500, "zigzag", "held", colour=WHITE), Pot("small jar", 290, "dots", "held", colour=WHITE)),
        690,
    )


def _three_white_jars(pen: Pen) -> None:
    shelf(
        pen,
        (Pot("jar", 330, colour=WHITE), Pot("jar", 322, colour=WHITE), Pot("jar", 334, fault="crack", colour=WHITE)),
    )


def _left_end(pen: Pen) -> None:
    h.ground(pen, (90, 1110, 70), wavy=(150, 430))
    floor = h.GROUND + 70
    sherds(pen, (165, floor - 128, 350, floor - 4), 4, 2, lumps=True)
    for x in (420, 590, 760, 930):
        h.standing(pen, "pot", (x, floor - 6), 124, fill=PAPER)
    pen.line([(436, floor - 112), (428, floor - 88), (440, floor - 66), (430, floor - 44)], 3.2)
    h.logs(pen, tuple(range(180, 1060, 64)), floor - 172, 30)


DRAWINGS: dict[str, Callable[[Pen], None]] = {
    "2024-04-20-pale-jar-first/nineteen-pieces.jpg": _nineteen_pieces,
    "2024-05-04-three-tempers/tile-rows.png": _tile_rows,
    "2024-05-25-pale-jar-second/wind-from-the-west.jpg": _wind_from_the_west,
    "2024-06-08-four-bowls-three-probes/three-probes.jpg": _three_probes,
    "2024-06-22-the-kiln-lit-once/kiln-in-section.jpg": _kiln_in_section,
    "2024-09-07-pale-jar-fourth/very-clean-jar.png": _very_clean_jar,
    "2024-10-19-net-weights/trench-section.png": _trench_section,
    "2025-04-12-pale-jar-fifth/jar-and-stone.png": _jar_and_stone,
    "2025-05-10-two-small-jars/setting.jpg": _setting,
    "2025-05-10-two-small-jars/two-jars.png": _two_jars,
    "2025-06-21-midsummer-fire/midsummer.jpg": _midsummer,
    "2025-08-02-pale-jar-seventh/faded.png": _faded,
    "2025-08-16-hot-trench/tuesday.jpg": _tuesday,
    "2025-09-27-pale-jar-eighth/round-the-belly.png": _round_the_belly,
    "2026-03-28-pale-jar-ninth/hairline.png": _hairline,
    "2026-04-18-ladder-upper-rungs/upper-rungs.png": _upper_rungs,
    "2026-05-16-pale-jar-tenth/tenth.jpg": _tenth,
    "2026-05-16-pale-jar-tenth/how-it-stood.jpg": _how_it_stood,
    "2026-06-13-blacking-pots/clamp.jpg": _clamp,
    "2026-08-08-harvest-fire/rota.jpg": _rota,
    "2026-09-05-pale-jar-twelfth/twelfth.png": _twelfth,
    "2026-09-19-pale-jars-in-the-kiln/three-white-jars.png": _three_white_jars,
    "2026-10-10-last-of-the-trench/left-end.jpg": _left_end,
}
"""What is drawn, by folder and file."""


def draw(name: str, folder: Path) -> Path:
    """Draw one picture into its firing's folder below `folder`."""
    pen = Pen(name)
    DRAWINGS[name](pen)
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    pen.save(path)
    return path


def main() -> None:
    """Draw them all."""
    parser = argparse.ArgumentParser(description="Draw the pictures of the demo archive.")
    parser.add_argument("--to", type=Path, default=FIRINGS, help="folder of firings (default: content/firings)")
    folder: Path = parser.parse_args().to
    for name in DRAWINGS:
        draw(name, folder)


if __name__ == "__main__":
    main()
