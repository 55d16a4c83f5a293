"""The words of the trade and of the counting, each with its meaning: for the page of words and for hints."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Word:
    """One word."""

    key: str
    """Its anchor on the page of words."""
    name: str
    meaning: str
    """One or two sentences that stand alone."""
    forms: tuple[str, ...] = ()
    """Other forms by which a text may use it in this sense."""
    see: tuple[str, ...] = ()
    """Keys of words close to it."""
    in_stories: bool = True
    """Explained where a story uses it; False for words that everyday speech uses in other senses."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """Words that belong together."""

    key: str
    heading: str
    words: tuple[Word, ...]


CHAPTERS: tuple[Chapter, ...] = (
    Chapter(
        "pots",
        "Clay and pots",
        (
            Word(
                "piece",
                "Piece",
                "One pot, tile or other thing of clay that went through a fire. Rates of success count pieces.",
                see=("firing", "ware"),
                in_stories=False,
            ),
            Word(
                "ware",
                "Ware",
                "A kind of pot that is made again and again with one aim: the same clay, surface and finish.",
                see=("piece", "attempt"),
                in_stories=False,
            ),
            Word(
                "attempt",
                "Attempt",
                "One more firing of the same ware by the same potter; attempts are numbered by date.",
                see=("ware",),
                in_stories=False,
            ),
            Word(
                "clay-body",
                "Clay body",
                "Clay as it is worked, together with all that was mixed into it.",
                ("clay bodies",),
                see=("temper",),
            ),
            Word(
                "temper",
                "Temper",
                "Grains or plant matter mixed into clay to open it: sand, crushed sherd, burnt shell, chaff. It lets "
                "water out and stops small cracks from running on.",
                ("tempered", "tempers"),
                see=("clay-body",),
            ),
            Word(
                "slip",
                "Slip",
                "Clay thinned with water to a cream and laid over the pot for its colour and smoothness.",
                ("slipped",),
                in_stories=False,
            ),
            Word(
                "paint",
                "Paint",
                "A pattern laid on before the fire. Mineral paint is ground ore or coloured earth and stays; plant "
                "paint is boiled-down juice, whose carbon burns away when it gets too hot with air about.",
                ("painted", "paints"),
                in_stories=False,
            ),
            Word(
                "burnish",
                "Burnish",
                "To rub the half-dry or dry surface with something hard and smooth until it is dense and shines.",
                ("burnished", "burnishing"),
            ),
            Word(
                "wall",
                "Wall",
                "The clay between the two faces of a pot. Its thickness decides how long water and heat take through.",
                see=("wall-lag",),
                in_stories=False,
            ),
            Word(
                "bone-dry",
                "Bone-dry",
                "Clay that gives off no more water to the air around it. Some water is still bound in it, and more "
                "may hide in a thick foot or handle.",
                ("bone dry",),
            ),
            Word("sherd", "Sherd", "A piece of a broken pot.", ("sherds",)),
            Word(
                "replica",
                "Replica",
                "A pot made after an old one. It is marked as such, so that nobody takes it for old.",
                ("replicas",),
            ),
        ),
    ),
    Chapter(
        "fire",
        "The fire",
        (
            Word(
                "firing",
                "Firing",
                "One fire and all that was in it, from the getting ready until the pots are drawn; also its entry in "
                "this archive.",
                see=("main-fire",),
                in_stories=False,
            ),
            Word(
                "warm-up",
                "Warm-up",
                "A small, slow fire, or a place at its edge, that drives the last water out of the pots before the "
                "main fire is lit.",
                ("warm up", "warming-up"),
                see=("main-fire", "spall"),
            ),
            Word(
                "main-fire",
                "Main fire",
                "The fire that turns the clay into pottery. All times on this site count from its lighting.",
                see=("warm-up",),
            ),
            Word(
                "setting",
                "Setting",
                "How the pots stand in the fire: on or in what ground, how deep, on what support, turned which way.",
                see=("stack",),
                in_stories=False,
            ),
            Word(
                "stack",
                "Stack",
                "The fuel as it is built under, around and over the pots. It is open where air passes easily, dense "
                "where it hardly does.",
                ("stacked",),
                see=("draught",),
            ),
            Word(
                "fuel",
                "Fuel",
                "What is burnt: kind of wood or other stuff, its thickness, its mass and the water in it.",
                in_stories=False,
            ),
            Word(
                "draught",
                "Draught",
                "The stream of air that a fire draws through itself. More of it burns hotter, faster and cleaner.",
                ("draughts",),
            ),
            Word("clamp", "Clamp", "A fire closed in with turf, sherds or earth, so that little air gets to it."),
            Word(
                "smother",
                "Smother",
                "To cover a fire so that it gets no more air: carbon then stays in the ware and blackens it.",
                ("smothered", "smothering"),
                see=("carbon-core",),
            ),
            Word(
                "draw",
                "Draw",
                "To take the pots out of the fire, hot or after it has cooled.",
                ("drawn", "drew"),
                see=("dunting",),
                in_stories=False,
            ),
            Word(
                "cold-ash",
                "Cold ash",
                "Ash that was drenched, stirred and felt all through. Until then somebody watches the fire.",
                in_stories=False,
            ),
        ),
    ),
    Chapter(
        "outcomes",
        "How pots come out",
        (
            Word(
                "sound",
                "Sound",
                "Whole, with no crack that can be seen, felt or heard.",
                see=("ring",),
                in_stories=False,
            ),
            Word(
                "spall",
                "Spall",
                "A flake that steam or a stone in the clay has thrown off the wall, mostly early in the fire.",
                ("spalls", "spalled", "spalling"),
                see=("warm-up",),
            ),
            Word(
                "dunting",
                "Dunting",
                "Cracking while the pot cools, when one part shrinks before another; the crack is long and has clean "
                "edges.",
                ("dunt", "dunted", "dunts"),
                see=("quartz",),
            ),
            Word(
                "fire-cloud",
                "Fire cloud",
                "A dark or pale blush where fuel, flame or lack of air touched the wall.",
                ("fire clouds", "fire-clouds", "fireclouds"),
            ),
            Word(
                "carbon-core",
                "Carbon core",
                "A dark layer inside the wall, where carbon of the clay or of soot had no time or no air to burn out.",
                ("carbon cores", "black core", "dark core"),
                see=("smother",),
            ),
            Word(
                "ring",
                "Ring",
                "The sound of a pot that is tapped. A clear one goes with a whole, well-fired wall; a dull one may "
                "tell of a crack that nobody sees.",
                in_stories=False,
            ),
            Word("waster", "Waster", "A pot that the fire spoilt.", ("wasters",)),
            Word(
                "porosity",
                "Porosity",
                "The share of a pot’s volume that water can get into. Ware from open fires stays porous.",
                ("porous",),
                see=("absorption",),
            ),
            Word(
                "absorption",
                "Water absorption",
                "The water that a pot soaks up, as a share of its dry mass.",
                see=("porosity",),
            ),
            Word(
                "shrinkage",
                "Shrinkage",
                "How much shorter a line on the pot has become by drying and firing, as a share of its wet length.",
                ("shrank", "shrunk"),
                in_stories=False,
            ),
            Word(
                "munsell",
                "Munsell",
                "A way to write a colour by comparing it with painted chips: hue, lightness, strength, as in 10YR 8/2.",
            ),
            Word(
                "success",
                "Success",
                "What a method says counts. A piece succeeds when every outcome that its method names is among those "
                "accepted, and is not judged when one that decides was not recorded.",
                see=("rate",),
                in_stories=False,
            ),
        ),
    ),
    Chapter(
        "heat",
        "Measuring the heat",
        (
            Word(
                "probe",
                "Probe",
                "One thermometer and the place it sees; a firing can have several, of which one stands for the ware.",
                ("probes",),
                see=("thermocouple", "spot-thermometer"),
            ),
            Word(
                "thermocouple",
                "Thermocouple",
                "Two wires of different metals joined at the hot end. Between their other ends stands a small voltage "
                "that tells how much hotter the joint is than they are.",
                ("thermocouples",),
                see=("cold-junction",),
            ),
            Word(
                "cold-junction",
                "Cold junction",
                "Where a thermocouple’s wires end at the meter. Its own temperature must be added to what they tell.",
                see=("thermocouple",),
            ),
            Word(
                "spot-thermometer",
                "Spot thermometer",
                "A thermometer held at a distance that reads the invisible heat shine of a spot. Flame, smoke and "
                "a wrong emissivity mislead it.",
                ("spot thermometers",),
                see=("emissivity",),
            ),
            Word(
                "emissivity",
                "Emissivity",
                "How strongly a surface shines with heat beside a perfectly black one of the same temperature, from 0 "
                "to 1.",
                see=("spot-thermometer",),
            ),
            Word(
                "witness-cone",
                "Witness cone",
                "A small slanted peg of ceramic stuff that softens and bends after a certain heat at a certain pace. "
                "In a fire far faster than that pace it only tells more from less.",
                ("witness cones", "cones"),
            ),
            Word(
                "peak",
                "Hottest reading",
                "The highest temperature that was read. Between two readings the fire may have been hotter.",
                in_stories=False,
            ),
            Word(
                "soak",
                "Soak",
                "The time that a fire stays close to its hottest.",
                ("soaks", "soaking"),
                in_stories=False,
            ),
            Word(
                "window",
                "Window",
                "The band of heat that a method aims at: hot enough for the carbon to leave, not so hot that the "
                "paint goes. The working window is the one that the results show.",
                in_stories=False,
            ),
            Word(
                "quartz",
                "Quartz inversion",
                "At 573 °C the quartz in clay and sand changes its form and swells at once, and shrinks back when it "
                "cools past it: a bad moment to hurry.",
                ("quartz",),
                see=("dunting",),
            ),
            Word(
                "wall-lag",
                "Lag of the wall",
                "How far the middle of the wall is behind its faces while the heat rises.",
                see=("wall",),
            ),
            Word(
                "equivalent",
                "Equivalent firing temperature",
                "The heat that, held for one hour, would have done the same work on the clay as this firing did.",
            ),
        ),
    ),
    Chapter(
        "counting",
        "Counting and telling apart",
        (
            Word(
                "rate",
                "Rate",
                "How many of a hundred pieces succeed. Those that could not be judged count in part, as those recorded "
                "in full went. It is never given here without its counts and its interval.",
                see=("interval",),
                in_stories=False,
            ),
            Word(
                "interval",
                "Interval",
                "From where to where the truth may lie. Of many intervals made like this one, 95 in 100 hold it.",
                ("95 % interval", "intervals"),
                see=("rate",),
                in_stories=False,
            ),
            Word(
                "design-effect",
                "Design effect",
                "How many pieces it takes to tell as much as one that was fired alone would: pots from one fire share "
                "its luck, so eight of them tell less than eight from eight fires.",
                see=("effective", "shared-luck"),
            ),
            Word(
                "effective",
                "Effective number",
                "The judged pieces divided by the design effect: what they are worth as if each had had its own fire.",
                ("effective n",),
                see=("design-effect",),
            ),
            Word(
                "shared-luck",
                "Shared luck",
                "How alike pieces of one fire come out, from 0, each for itself, to 1, all or none. Statisticians call "
                "it the intraclass correlation.",
                see=("design-effect",),
            ),
            Word(
                "not-recorded",
                "Not recorded",
                "Nobody wrote it down. It is never guessed, never taken for nothing, and counted as what it is.",
                in_stories=False,
            ),
        ),
    ),
)
"""Every word, in the order of the page."""

WORDS: dict[str, Word] = {word.key: word for chapter in CHAPTERS for word in chapter.words}
"""Words by their key."""
