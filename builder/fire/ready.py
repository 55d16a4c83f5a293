"""What to have and to ask before a fire is lit, each with its reasons to stop: for the sheet that goes to the fire.

Nothing here, ticked or not, says that a fire is safe: a sheet with every box ticked still ends where local fire rules,
the landowner, the fire service and licensed practice begin.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ready:
    """One line of the sheet."""

    asked: str
    """What was asked, fetched or looked at."""
    stop: str
    """When that is a reason to stop."""
    caution: str
    """Key of the caution that says more."""
    blank: str = ""
    """What to write beside it; empty for nothing."""


READY: tuple[Ready, ...] = (
    Ready(
        "Fire rules, permit, landowner and fire service asked, today, for this place",
        "a ban is in force, a permit or a yes is missing, or the rules change while you wait",
        "permission",
        "who said yes, when",
    ),
    Ready(
        "Wind, air, grass and what hangs above looked at; bare earth all round",
        "there are gusts, dry grass, leaves or crops near, branches or wires above, or a warning for the day",
        "wind",
        "wind, air, days without rain",
    ),
    Ready(
        "Ware dried for long and kept dry since",
        "a wall, foot or handle feels cool or damp, or came in from rain or dew",
        "steam",
        "days of drying",
    ),
    Ready(
        "Supports dry: brick, or props that have been through a fire",
        "a stone from a river, a beach or wet ground is under or in the fire",
        "stones",
    ),
    Ready(
        "Ground dry, and nothing in it that burns or bursts",
        "it is damp, or it is peat, turf, roots, leaf mould, concrete, paving or rock",
        "ground",
    ),
    Ready(
        "Wood dry and untreated; dung only where it may be burnt",
        "any of it is painted, glued, pressed, from a pallet nobody knows, or rubbish",
        "fuel",
    ),
    Ready(
        "Water, rake, shovel and beater within reach",
        "the water would not reach, or not last until the ash is cold",
        "people",
    ),
    Ready(
        "Close-woven wool, cotton or leather, closed shoes, eyes covered",
        "a sleeve is loose, hair is open, or something on you melts",
        "people",
    ),
    Ready(
        "Somebody who does nothing but watch; way and number for help known",
        "you are alone, or children, animals or onlookers cannot be kept back",
        "people",
        "who watches; number for help",
    ),
    Ready(
        "Open air on all sides, and smoke that goes away from people",
        "it would be lit in or beside a tent, shed or garage, or the smoke stands among neighbours",
        "smoke",
    ),
    Ready(
        "Pigments and clay known for what they are; nothing taken that is protected",
        "nobody knows what is in a pigment, or who allowed the clay, wood or sherds to be taken",
        "pigments",
    ),
    Ready(
        "Time and somebody left to stay until the ash is cold right through",
        "nobody can stay until it was drenched, stirred, drenched again and felt",
        "watch",
        "who stays, until when",
    ),
)
"""Every line, in the order in which it is seen to."""
