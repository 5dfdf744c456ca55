"""Requests as a person would type them, drawn at random from a seed: command lines, nothing else.

Every attachment, stance, ground and kind of rigging of the option texts comes up; numbers are
written in the units that people use. Poses are scaled by the machine, so that most can be taken.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from random import Random

import liftcalc
from tests.drawn_machines import BACK, FRONT, MACHINES, VARIANTS

QUESTIONS = (
    "farthest", "highest", "longest", "ballast", "pads", "pressure", "steepest", "carry", "chain",
    "more",
)  # fmt: skip
GROUNDS = (
    "unknown", "peat", "fill", "mud", "soft clay", "loose sand or gravel", "firm clay",
    "medium sand or gravel", "stiff clay", "dense sand", "dense gravel", "hard standing", "rock",
    "dry dense gravel",
)  # fmt: skip
MEASURED = ("species", "length", "butt", "mid", "top", "bark", "moisture")
CARRIED = ("ice", "mud", "root-plate", "limbs")
KINDS = ("chain grade 80", "chain grade 30", "round sling", "wire rope", "fibre rope")
SURFACES = ("bark on", "bark on, wet", "peeled", "peeled, wet", "frosted")


@cache
def species() -> tuple[str, ...]:
    """Every name that the table of species has, and the two unknown ones."""
    (file,) = Path(liftcalc.__file__).parent.rglob("species.csv")
    with file.open(encoding="utf-8", newline="") as lines:
        names = [each["common_name"] for each in csv.DictReader(lines)]
    return (*names, "unknown hardwood", "unknown softwood")


@dataclass
class Draw:
    """A generator of random numbers that writes them as people do."""

    rng: Random

    def chance(self, share: float) -> bool:
        return self.rng.random() < share

    def one(self, *of: str) -> str:
        return self.rng.choice(of)

    def length(self, low: float, high: float) -> str:
        value = self.rng.uniform(low, high)
        # Rounded as it is written: nobody writes 1 ft 12.0 in.
        feet, inches = divmod(round(value / 0.0254, 1), 12)
        texts = [f"{value:.3f} m"] * 4 + [f"{100 * value:.1f} cm", f"{1000 * value:.0f} mm"]
        texts += [f"{value / 0.3048:.3f} ft"] + [f"{feet:.0f} ft {inches:.1f} in"] * (value > 0)
        return self.rng.choice(texts)

    def mass(self, low: float, high: float) -> str:
        value = self.rng.uniform(low, high)
        return self.one(f"{value:.1f} kg", f"{value / 1000:.4f} t", f"{value / 0.45359237:.0f} lb")

    def angle(self, low: float, high: float) -> str:
        value = self.rng.uniform(low, high)
        return self.one(f"{value:.2f} deg", f"{value:.1f} deg", f"{value * 0.0174533:.4f} rad")

    def plain(self, low: float, high: float, unit: str = "") -> str:
        return f"{self.rng.uniform(low, high):.3f} {unit}".strip()


def log(draw: Draw, size: float) -> dict[str, str]:
    """A log by diameters or girths, fresh or dry, with what sticks to it."""
    butt = draw.rng.uniform(10, 55) * (size / 4.45) ** 0.5
    taper = draw.rng.uniform(0.75, 0.98)
    thick = {"butt": butt, "mid": butt * (1 + taper) / 2, "top": butt * taper}
    ways = (("butt", "mid", "top"), ("mid",), ("butt", "top"), ("butt", "mid", "top"))
    made = {
        "species": draw.one(*species()),
        "length": draw.length(1.8, 6.0),
        **{
            name: draw.one(
                f"{thick[name]:.2f} cm", f"{thick[name] / 2.54:.2f} in",
                f"girth {thick[name] * 3.14159:.1f} cm",
            )
            for name in draw.rng.choice(ways)
        },
    }  # fmt: skip
    if draw.chance(0.3):
        made["bark"] = draw.one("over", "under")
    if draw.chance(0.5):
        made["moisture"] = draw.one("fresh", "part-dry", "soaked", draw.plain(15, 130, "%"))
    for name in CARRIED:
        if draw.chance(0.12):
            made[name] = draw.one(draw.mass(2, 60), draw.plain(1, 8, "%"))
    return made


def site(draw: Draw, *, stance: str, journey: bool) -> dict[str, str]:
    """Ground, slope, accelerations and what is near."""
    made: dict[str, str] = {}
    if draw.chance(0.6):
        steep = draw.rng.choice((1.0, 3.0, 6.0, 9.0))
        made["slope"] = draw.one(
            draw.plain(0, steep, "deg"), draw.plain(0, 1.7 * steep, "%"),
            f"1 in {draw.rng.uniform(60 / steep, 100):.1f}",
        )  # fmt: skip
        made["uphill"] = draw.angle(-180, 180)
        if stance.startswith("stab") and draw.chance(0.4):
            made["levelled"] = ""
    if draw.chance(0.7):
        made["ground"] = draw.one(*GROUNDS)
    if draw.chance(0.4):
        made["mat"] = draw.length(0.3, 1.8)
    if draw.chance(0.3):
        made["friction"] = draw.plain(0.05, 0.8)
    if not journey and draw.chance(0.12):
        made["accelerate-forward"] = draw.plain(-0.8, 0.8, "m/s2")
        made["accelerate-left"] = draw.plain(-0.8, 0.8, "m/s2")
    return made | near(draw)


def near(draw: Draw) -> dict[str, str]:
    """Wires, edges and people."""
    made: dict[str, str] = {}
    if draw.chance(0.35):
        made["wires"] = "none" if draw.chance(0.2) else draw.length(8, 30)
        made["rules"] = draw.one("uk", "us")
        if made["rules"] == "us" and draw.chance(0.8):
            made["wires-voltage"] = draw.one("400 V", "11 kV", "33 kV", "132 kV", "400 kV")
        if made["rules"] == "uk" and draw.chance(0.8):
            made["wires-on"] = draw.one("wood poles", "steel towers")
    if draw.chance(0.35):
        made["edge"] = "none" if draw.chance(0.2) else draw.length(0.1, 5)
        if made["edge"] != "none":
            made["edge-depth"] = draw.length(0.2, 3)
    if draw.chance(0.35):
        made["people"] = "none" if draw.chance(0.2) else draw.length(1.5, 12)
    return made


def rigging(draw: Draw, hold: str, length: float, *, far: str) -> dict[str, str]:
    """How the log is slung, with what, and how much of it is lifted; by how its end holds it."""
    made: dict[str, str] = {}
    if draw.chance(0.3):
        made["swing"] = draw.angle(0, 12)
    if hold in ("gripped", "grab") and draw.chance(0.7):
        made["surface"] = draw.one(*SURFACES)
    if hold in ("gripped", "cradled") and draw.chance(0.6):
        made["off-centre"] = draw.length(0.0, 0.08 * length)
    if hold == "grab" and draw.chance(0.3):
        made["hitch-wll"] = draw.mass(800, 6000)
    if hold != "hangs":
        return made
    if way := draw.one("", "choked", "single", "basket", "two legs"):
        made["sling"] = way
    if draw.chance(0.5) or way in ("basket", "two legs"):
        made["sling-length"] = draw.length(2.0, 4.0)
    if way == "two legs" or (way == "basket" and draw.chance(0.5)):
        made["leg-spread"] = draw.length(0.2, min(1.6, 0.5 * length))
    if draw.chance(0.2):
        made["slung-at"] = draw.length(0.42 * length, 0.49 * length)
    if draw.chance(0.4):
        made["rigging-mass"] = draw.mass(0, 60)
    if draw.chance(0.35):
        made |= drawn_along(draw, length, far=far)
    if made.get("sling") == "single":
        made.pop("leg-spread", None)
    return made | gear(draw)


def drawn_along(draw: Draw, length: float, *, far: str) -> dict[str, str]:
    """A log of which some stays on the ground, or that is broken out of it."""
    made = {"lifted": draw.one("whole", "one end", "one end", "drawn", far)}
    if draw.chance(0.6):
        made["ground-end"] = draw.one("butt", "top")
    if draw.chance(0.3):
        made["hook-at"] = draw.length(0.7 * length, 0.95 * length)
    if made["lifted"] == "one end" and draw.chance(0.3):
        # So short that the log may come to stand steep.
        made["sling"], made["sling-length"] = "single", draw.length(0.4, 0.8)
    if draw.chance(0.4):
        made["breakout"] = draw.plain(1, 3)
    if draw.chance(0.4):
        made["drag-friction"] = draw.plain(0.4, 1.3)
    return made


def gear(draw: Draw) -> dict[str, str]:
    """Chain, sling, hook, shackle and hitch by their sizes and tags."""
    made: dict[str, str] = {}
    if draw.chance(0.7):
        made["sling-kind"] = kind = draw.one(*KINDS)
        if kind != "round sling":
            made["sling-size"] = draw.one("7 mm", "8 mm", "10 mm", "13 mm", "3/8 in", "16 mm")
        if kind == "round sling" or draw.chance(0.4):
            made["sling-wll"] = draw.mass(700, 5000)
    for name in ("hook-wll", "shackle-wll", "hitch-wll"):
        if draw.chance(0.4):
            made[name] = "none" if draw.chance(0.15) else draw.mass(600, 6000)
    return made


def machine_of(draw: Draw) -> tuple[str, float]:
    """A shipped machine or an altered one, and its size [m]."""
    name = draw.one(*MACHINES)
    return (name if draw.chance(0.4) else f"@{draw.one(*VARIANTS)} {name}"), MACHINES[name]


def metres(text: str) -> float:
    """A drawn length [m], whatever unit it was written in."""
    found = re.fullmatch(r"([\d.]+) (m|cm|mm|ft)(?: ([\d.]+) in)?", text)
    assert found is not None, text
    unit = {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048}[found[2]]
    return float(found[1]) * unit + float(found[3] or 0) * 0.0254


def lift(draw: Draw, end: str = "") -> tuple[str, dict[str, str]]:
    """A machine and the options of one lift."""
    machine, size = machine_of(draw)
    end = end or draw.one("front", "back")
    tools = FRONT if end == "front" else BACK
    tool = draw.one(*tools)
    point = draw.one(*tools[tool])
    made = {"end": end, "attachment": tool, **log(draw, size)}
    if len(tools[tool]) > 1 or draw.chance(0.5):
        made["lift-point"] = point
    if end == "back":
        stance = _back(draw, made, machine, size)
    else:
        stance = _front(draw, made, size, hangs=tools[tool][point] in ("hangs", "grab"))
    made |= site(draw, stance=stance, journey="travelling" in made)
    far = draw.one("drawn", "drawn, one end up")
    made |= rigging(draw, tools[tool][point], metres(made["length"]), far=far)
    if draw.chance(0.12):
        made["plate"] = draw.mass(300, 2500)
    if draw.chance(0.2):
        made["pressure"] = draw.one(
            draw.plain(100, 230, "bar"), draw.plain(10, 22, "MPa"), draw.plain(1500, 3200, "psi")
        )
    if draw.chance(0.2):
        made["empty-seat"] = ""
    return machine, made


def _back(draw: Draw, made: dict[str, str], machine: str, size: float) -> str:
    """Pose and stance of a lift at the back; gives the stance."""
    out = draw.rng.uniform(0.42, 0.92)
    made["reach"] = draw.length(out * size, out * size)
    # High and near is beyond the strokes of most.
    high = 0.72 if out > 0.68 or draw.chance(0.12) else 0.4
    made["height"] = draw.length(0.12 * size, high * size)
    if draw.chance(0.7):
        made["slew"] = draw.angle(-88, 88)
    if "sideshift" in machine and draw.chance(0.5):
        made["sideshift"] = draw.plain(-0.5, 0.5, "m")
    if draw.chance(0.4):
        made["curl"] = draw.plain(10, 95, "%")
    stance = draw.one("", "stabilisers", "wheels", "stabilisers and bucket")
    if stance:
        made["stance"] = stance
    if stance.endswith("bucket"):
        made["other-attachment"] = draw.one("wide front shovel", "multi-purpose jaw bucket")
    elif draw.chance(0.3):
        made["other-attachment"] = draw.one(*FRONT)
    if draw.chance(0.3):
        made["slew-speed"] = draw.plain(2, 25, "deg/s")
        if draw.chance(0.97):
            made["slew-stop"] = draw.plain(0.5, 3, "s")
    return stance or "stabilisers"


def _front(draw: Draw, made: dict[str, str], size: float, *, hangs: bool) -> str:
    """Pose, stance and journey of a lift at the front; gives the stance."""
    made["height"] = draw.length((0.3 if hangs else 0.08) * size, 0.68 * size)
    if draw.chance(0.5):
        made["tilt"] = draw.angle(-8, 28)
    if draw.chance(0.3):
        made["other-attachment"] = draw.one(*BACK)
    if not draw.chance(0.5):
        return made.setdefault("stance", draw.one("wheels", "wheels", "stabilisers"))
    made["travelling"] = ""
    if draw.chance(0.8):
        made["speed"] = draw.one(draw.plain(0.5, 10, "km/h"), draw.plain(0.5, 6, "mph"))
        if draw.chance(0.6):
            made["turn-radius"] = draw.length(3.5, 25)
    if draw.chance(0.4):
        made["braking"] = draw.plain(0.1, 2.0, "m/s2")
    if draw.chance(0.4):
        made["sinkage"] = draw.length(0.01, 0.15)
    return "wheels"


def line(command: str, machine: str, options: dict[str, str]) -> list[str]:
    """The words of a command line."""
    made = [command, machine] if machine else [command]
    return made + [f"--{name}={text}" if text else f"--{name}" for name, text in options.items()]


def check(draw: Draw) -> list[str]:
    """``check``, of which a few are mistyped on purpose."""
    machine, options = lift(draw)
    if draw.chance(0.03):
        for name in draw.rng.sample(sorted(options), 2):
            if options[name]:
                options[name] = draw.one("nonsense", "3", "-1e9 m", "5 apples", "0")
    return [*line("check", machine, options), "--json", "--evidence"]


def ask(draw: Draw, question: str) -> list[str]:
    """``ask``, of what is asked for left out."""
    end = {"carry": "front", "farthest": "back", "pads": "back"}.get(question, "")
    machine, options = lift(draw, end)
    while not suits(question, options):
        machine, options = lift(draw, end)
    options.pop({"farthest": "reach", "highest": "height", "carry": "height"}.get(question, ""), "")
    more = {"ground": draw.one(*GROUNDS[4:])} if question == "pads" else {}
    if question == "longest" and draw.chance(0.7):
        more = {"keep": draw.one("butt", "top", "both")}
    if question == "ballast" and draw.chance(0.5):
        more = {
            "ballast-ahead": draw.plain(-0.5, 2, "m"), "ballast-left": draw.plain(-0.5, 0.5, "m"),
            "ballast-up": draw.plain(0.5, 1.5, "m"),
        }  # fmt: skip
    words = line("ask", machine, options | more)
    return ["ask", question, *words[1:], "--json"]


def suits(question: str, options: dict[str, str]) -> bool:
    """Whether a lift is one that the question can be asked of; most then have an answer."""
    if question == "carry":
        slung = options.keys() & {"lifted", "slung-at"}
        return options.get("stance") != "stabilisers" and not slung
    if question == "pads":
        return options.get("stance") != "wheels"
    hung = {"eye on the shovel", "eye on the jaw bucket"}
    return question != "chain" or (
        options["attachment"] in ("front lifting hook", "lifting hook", "digging bucket")
        or options.get("lift-point") in hung
    )


def compare(draw: Draw) -> list[str]:
    """``compare`` of both ends for one log and two places."""
    machine, size = machine_of(draw)
    front, back = draw.one(*FRONT), draw.one(*BACK)
    point = draw.one(*FRONT[front])
    made = log(draw, size) | {
        "front-attachment": front, "front-lift-point": point, "back-attachment": back,
        "pick-height": draw.length(0.0, 0.15 * size), "set-height": draw.length(0.05, 0.35 * size),
        "pick-reach": draw.length(0.5 * size, 0.85 * size),
    }  # fmt: skip
    for name, text in (
        ("pick-slew", draw.angle(-80, 80)), ("set-slew", draw.angle(-80, 80)),
        ("set-reach", draw.length(0.5 * size, 0.85 * size)), ("front-tilt", draw.angle(-5, 25)),
        ("back-curl", draw.plain(30, 95, "%")), ("front-plate", draw.mass(400, 2500)),
        ("back-plate", draw.mass(400, 2500)), ("bunk-width", draw.length(1.2, 2.2)),
        ("back-stance", draw.one("stabilisers", "wheels")), ("pressure", "180 bar"),
        ("front-open-width", draw.length(0.8, 2)), ("back-open-width", draw.length(0.6, 1.8)),
    ):  # fmt: skip
        if draw.chance(0.35):
            made[name] = text
    made |= site(draw, stance=made.get("back-stance", "stabilisers"), journey=True)
    made |= rigging(draw, "hangs", metres(made["length"]), far="one end")
    if FRONT[front][point] in ("gripped", "cradled") and draw.chance(0.9):
        made.pop("lifted", None)  # what is held fast is lifted whole
    return [*line("compare", machine, made), "--json"]


def limits(draw: Draw) -> list[str]:
    """``limits`` in coarse cells, half of them without a log."""
    machine, options = lift(draw)
    for name in ("reach", "height", "slung-at", "leg-spread", "sling", "lifted", "hook-at"):
        options.pop(name, None)
    if draw.chance(0.5):
        for name in (*MEASURED, *CARRIED, "off-centre", "ground-end"):
            options.pop(name, None)
    options |= {"reach-step": "0.6 m", "height-step": "0.6 m", "slew-step": "30 deg"}
    return [*line("limits", machine, options), "--json"]


def weigh(draw: Draw) -> list[str]:
    """``log``."""
    return [*line("log", "", log(draw, 4.45)), "--json"]


def requests(count: int, seed: int) -> list[list[str]]:
    """Command lines: so many lifts to check, and some of every other command."""

    def draw(kind: str, number: int) -> Draw:
        return Draw(Random(f"{seed} {kind} {number}"))

    made = [check(draw("check", i)) for i in range(count)]
    few = max(2, count // 150)
    for question in QUESTIONS:
        made += [ask(draw(question, i), question) for i in range(few)]
    made += [compare(draw("compare", i)) for i in range(5 * few)]
    made += [limits(draw("limits", i)) for i in range(few)]
    return made + [weigh(draw("log", i)) for i in range(5 * few)]
