"""The cautions that go with open wood firing: the whole list, for the page of cautions and the sheet to print.

They name reasons to stop and to look again. They never say that anything is safe, and where rules and people decide,
they leave it to them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution."""

    key: str
    """Its anchor on the page of cautions."""
    heading: str
    sentences: tuple[str, ...]


CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "permission",
        "Fire rules, permits and the landowner",
        (
            "Ask before you build the stack: whether a burn ban is in force, whether a permit or a notice is needed, "
            "what the landowner allows, and what the fire service wants to be told.",
            "Local fire rules, the landowner and the fire service decide; nothing on this site stands in for them.",
            "Leave when the rules change while you wait. A permit from last year, or from the next parish, says "
            "nothing.",
        ),
    ),
    Caution(
        "wind",
        "Wind, dry air and dry grass",
        (
            "Wind, gusts, dry air, days without rain and dry grass, leaves or crops nearby are each a reason to stop.",
            "Clear the ground down to bare earth well beyond the stack, and look up: branches, wires and roofs "
            "count too.",
            "A fire-weather index only ever adds a reason to stop. A low one is no permission.",
        ),
    ),
    Caution(
        "people",
        "Water, tools, clothing and somebody to watch",
        (
            "Have water, a rake, a shovel and something to beat out sparks at hand before the match is struck, and "
            "somebody beside you who does nothing but watch.",
            "Wear close-woven wool, cotton or leather, closed shoes and eye protection; no loose sleeves, nothing "
            "that melts.",
            "Keep children, animals and onlookers well back; stacks fall and pots throw pieces.",
            "Know the way and the telephone number for help. Cool a burn under running water at once and have it seen.",
        ),
    ),
    Caution(
        "steam",
        "Steam in damp pots",
        (
            "Water left in a wall turns to steam as the pot is heated, and can burst it and throw sherds and embers.",
            "Dry the ware for long, warm it slowly well past the boiling point of water, and stand back while it "
            "heats.",
            "A pot that is dry to the touch can be damp inside a thick wall, a foot or a handle.",
        ),
    ),
    Caution(
        "ground",
        "Damp ground",
        (
            "Damp ground steams under a fire, cools the pots unevenly and can throw earth and stones.",
            "Concrete, paving and rock can burst with heat. Peat, turf, roots and leaf mould can carry fire "
            "underground and bring it up hours later somewhere else.",
        ),
    ),
    Caution(
        "stones",
        "Stones in and under the fire",
        (
            "Stones that hold water burst in the fire, and river and beach stones hold it.",
            "Prop pots on dry brick, or on sherds and props that have been through a fire before, and keep them "
            "under a roof until then.",
        ),
    ),
    Caution(
        "hot-ware",
        "Hot ware in cold air",
        (
            "Ware drawn hot can crack with a snap in cold air, wind or rain and on cold or wet ground, and throw "
            "pieces.",
            "Let it cool in its ash where you can. Nothing wet goes on hot ware, and hot ware that no longer glows "
            "still burns.",
        ),
    ),
    Caution(
        "smoke",
        "Smoke and carbon monoxide",
        (
            "Wood smoke harms lungs and hearts. Stand upwind, mind the neighbours, and keep those with weak lungs "
            "away.",
            "Embers give off carbon monoxide, which has no smell. No fire, embers or hot ash in a tent, shed, "
            "garage or cellar, and nobody bends into a pit, a kiln or a firebox that is alight or still warm.",
        ),
    ),
    Caution(
        "dust",
        "Dust of clay, temper and ash",
        (
            "Dry clay, sand, crushed rock and crushed sherd make dust with silica in it, which scars lungs for good.",
            "Crush and sieve damp or outdoors with a mask made for such dust, wipe up wet, never sweep dry. Wood "
            "ash is caustic: keep it out of eyes and lungs.",
        ),
    ),
    Caution(
        "pigments",
        "Pigments with lead or other heavy metals",
        (
            "Lead, cadmium, arsenic, antimony, mercury, chromium, manganese, cobalt, copper and nickel harm those "
            "who grind them, those who stand in the smoke and those who use the pot.",
            "Know what is in a pigment before it is ground or fired. Keep such pots apart and marked, and leave "
            "their waste to those licensed to take it.",
        ),
    ),
    Caution(
        "food",
        "Porous ware is not for food or drink",
        (
            "Ware from an open fire stays porous: what soaks in cannot be washed out and goes bad there.",
            "Nothing here has been tested for food or drink. Testing is work for a licensed laboratory.",
        ),
    ),
    Caution(
        "fuel",
        "Dung, treated timber and rubbish",
        (
            "Treated, painted or glued timber, pallets of unknown past, sleepers, plastics and rubbish give off "
            "poisons and leave them in the ash; burning them is forbidden in many places.",
            "Dung smoke and dung dust carry germs and irritate lungs. Know the animals and what they were treated "
            "with, gather it dry with gloves and a mask, and ask whether it may be burnt.",
        ),
    ),
    Caution(
        "watch",
        "A watch until the ash is cold",
        (
            "Somebody stays until the ash is cold right through: drenched, stirred, drenched again, and felt.",
            "Pits, trenches and kilns keep embers until the next day and longer. Hot ash never goes into a bin, on "
            "a heap or into a car.",
        ),
    ),
    Caution(
        "replicas",
        "Replicas marked as replicas",
        (
            "Mark a replica of an old ware as one before it is fired, so that it cannot be taken for an old one.",
            "Say whose tradition it follows, and ask where that tradition is living.",
        ),
    ),
    Caution(
        "gathering",
        "Clay, wood and sherds that the law protects",
        (
            "Take no clay, wood, stone, plants or sherds where the law or the landowner protects them, and leave "
            "sherds on an old site where they lie.",
            "Ask first, and write down who allowed it.",
        ),
    ),
)
"""Every caution, in the order of the page."""

BY_KEY = {caution.key: caution for caution in CAUTIONS}
"""Cautions by their anchor."""
