"""Figures that few machines have, the slip that most likely made them, and what to look at.

A figure is held against the family, for a machine of the size that all figures together say. Each
usual slip of hand or unit is tried on it: where the figure becomes so much likelier that the slip
is the better explanation, it is named with the figure that would be meant.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Literal, NamedTuple

import numpy as np

from liftcalc.family import doing
from liftcalc.family.figures import figures
from liftcalc.family.kind import MachineKind
from liftcalc.family.member import built
from liftcalc.family.parameters import (
    COMMON,
    GOES_WITH,
    STANDARD_MASS,
    Parameter,
    parameters,
    variates,
)
from liftcalc.family.posterior import FARTHER
from liftcalc.family.read_back import figures_of
from liftcalc.machines.number import plain
from liftcalc.machines.schema import LinkRam, Machine, TiltRam
from liftcalc.physics.functions import Real
from liftcalc.units import Kind

SlipKind = Literal[
    "barrel outside",
    "psi for bar",
    "pounds for kilograms",
    "feet for metres",
    "decimal point",
    "diameter for radius",
    "axles swapped",
    "sign lost",
    "count",
    "lengthens",
    "",
]
"""What slipped; empty where the figure is unlikely and no usual slip makes it likely."""

UNLIKELY = 4.0
"""Standard deviations off beyond which a figure is named though no slip explains it [-]."""
SLIPS = 0.03
"""How often a figure has a slip of one kind [-]; judgement: of thirty typed figures one."""
WALLS = 1.17
"""Barrel outside to bore [-]: two walls of a twelfth of the bore; common practice, no source."""


class Seen(NamedTuple):
    """What can be looked at: in words, by the figures as given, and by likely ones [SI]."""

    words: str
    given: float
    likely: float
    kind: Kind


class UnlikelyFigure(NamedTuple):
    """A figure that hardly any machine of its class and size has.

    Attributes
    ----------
    name, words : str
        The parameter, or the key in the machine file, and what a person calls it.
    given, likely : float
        The figure, and the one likely meant [SI].
    off : float
        How many standard deviations it lies off those of the family [-]; infinite where no
        machine can have it.
    slip : str
        What most likely slipped.
    seen : Seen or None
        A consequence to check by eye.
    """

    name: str
    words: str
    given: float
    likely: float
    off: float
    slip: SlipKind
    seen: Seen | None = None


class _Try(NamedTuple):
    """A slip that may have been made: of which figures, and what undoes it."""

    slip: SlipKind
    fits: Callable[[Parameter], bool]
    undo: Callable[[Real], Real]


def _is_length(each: Parameter) -> bool:
    return each.key in LENGTHS


LENGTHS = {
    "cog_height", "wheelbase", "rear_track", "axle_pin_height", "rear_radius", "pads_behind",
    "pad_spread", "pad_length", "arm_pivot_height", "arm_length", "hinge_height", "slew_behind",
    "sideshift_limit", "foot_out", "foot_height", "boom_length",
}  # fmt: skip
_TRIES = (
    _Try("barrel outside", lambda p: p.key.endswith("_bore"), lambda x: x / WALLS),
    _Try("psi for bar", lambda p: p.key == "pressure", lambda x: x * 14.504),
    _Try("psi for bar", lambda p: p.key == "pressure", lambda x: x / 14.504),
    _Try(
        "pounds for kilograms",
        lambda p: p.key in {"total", "boom_mass", "dipper_mass"},
        lambda x: x * 0.45359,
    ),
    _Try("feet for metres", _is_length, lambda x: x * 0.3048),
    _Try("decimal point", _is_length, lambda x: x / 10),
    _Try("decimal point", _is_length, lambda x: x * 10),
    _Try("diameter for radius", lambda p: p.key == "rear_radius", lambda x: x / 2),
    _Try("axles swapped", lambda p: p.key == "front_share", lambda x: 1 - x),
)


def _off(each: Parameter, value: Real, *, size: float, unsure: float) -> float:
    """How many standard deviations a figure lies off machines of a size [-]."""
    if not each.plain and not value > 0:
        return math.inf
    found = each.latent(value, size=size)
    if each.group:  # of one's own and what is shared with others together
        found *= math.sqrt(1 - GOES_WITH**2)
    spread = each.spread if each.plain else math.hypot(each.spread, each.exponent * unsure)
    return float(found * each.spread / spread / FARTHER)


def size_said(kind: MachineKind, known: Mapping[str, Real]) -> tuple[float, float]:
    """Logarithm of the size that most figures agree on, and its standard deviation [-].

    The median over the figures that grow with size, so that one slip does not carry it along.
    """
    said = [
        math.log(known[each.key] / each.median) / each.exponent
        for each in parameters(kind)
        if each.exponent >= 0.5 and not each.plain and known.get(each.key, 0) > 0
    ]
    middle = float(np.median(said))
    spread = 1.4826 * float(np.median(np.abs(np.array(said) - middle)))
    return middle, spread / math.sqrt(len(said))


def unlikely(machine: Machine, kind: MachineKind) -> tuple[UnlikelyFigure, ...]:
    """Figures of a machine file that hardly any machine of its kind has, the unlikeliest first.

    Of a sound machine; a file that is no machine is refused before, see ``validation``.
    """
    known = {name: plain(x) for name, x in figures_of(machine, pattern=kind.pattern).items()}
    found = [*_strokes(machine, kind, known), *_counts(machine, kind)]
    turned = {name for each in found for name in each.name.split(", ")}
    size, unsure = size_said(kind, known)
    usual = _usual(kind, size)
    for each in parameters(kind):
        if each.key not in known or each.key in turned or each.key == "boom_lift":
            continue
        named = _named(each, known[each.key], size=size, unsure=unsure, usual=usual)
        if named is not None:
            found.append(named._replace(seen=_seen(kind, known, named)))
    found += _boom_bore(machine, kind, known, usual)
    return tuple(sorted(found, key=lambda x: -x.off))


def _usual(kind: MachineKind, size: float) -> dict[str, float]:
    """Median figures of a kind at a size."""
    first = (3 * size - math.log(kind.of.mass / STANDARD_MASS)) / kind.of.spread
    latent = np.zeros((1, variates(kind)))
    latent[0, COMMON.index("size")] = first
    return {name: float(x[0]) for name, x in figures(kind, latent).items()}


def best_slip(
    off: Callable[[float], float], value: float, tries: Iterable[tuple[SlipKind, float]]
) -> tuple[SlipKind, float] | None:
    """The slip that explains a figure better than chance, and what was meant; None where none does.

    ``off`` says how many standard deviations a figure lies off, ``tries`` what each slip would
    have made of which figure.
    """
    best, least = None, off(value) ** 2 / 2 + math.log(SLIPS)
    for slip, meant in tries:
        left = off(meant) ** 2 / 2
        if left < least:
            best, least = (slip, meant), left
    return best


def _named(
    each: Parameter, value: float, *, size: float, unsure: float, usual: Mapping[str, float]
) -> UnlikelyFigure | None:
    """A figure with the slip that explains it best; None where nothing has to be said of it."""

    def of(meant: float) -> float:
        return _off(each, meant, size=size, unsure=unsure)

    off = abs(of(value))
    tries = [(x.slip, x.undo(value)) for x in _TRIES if x.fits(each)]
    best, likely = best_slip(of, value, tries) or ("", usual[each.key])
    if value < 0 < usual[each.key] and not each.plain:
        best, likely = "sign lost", usual[each.key]
    if not best and off < UNLIKELY:
        return None
    return UnlikelyFigure(each.key, each.words, value, likely, off, best)


def _boom_bore(
    machine: Machine, kind: MachineKind, known: Mapping[str, Real], usual: Mapping[str, float]
) -> Iterator[UnlikelyFigure]:
    """The boom ram's bore, which goes by what it lifts: told by the lift at full reach."""
    lift = next(each for each in parameters(kind) if each.key == "boom_lift")
    size, unsure = size_said(kind, known)
    bore, wanted = float(machine.back.boom_ram.bore), known["boom_lift"]
    off = _off(lift, wanted, size=size, unsure=unsure)
    thinner = _with_bore(machine, bore / WALLS)
    left = _off(lift, thinner, size=size, unsure=unsure)
    slipped = left**2 / 2 < off**2 / 2 + math.log(SLIPS)
    if not slipped and abs(off) < UNLIKELY:
        return
    likely = bore / WALLS if slipped else bore * math.sqrt(max(usual["boom_lift"] / wanted, 0.01))
    seen = Seen(lift.words, wanted, thinner if slipped else usual["boom_lift"], "mass")
    yield UnlikelyFigure(
        "back.boom_ram.bore",
        "bore of the boom ram",
        bore,
        likely,
        abs(off),
        "barrel outside" if slipped else "",
        seen,
    )


def _with_bore(machine: Machine, bore: float) -> float:
    ram = machine.back.boom_ram.model_copy(update={"bore": bore})
    back = machine.back.model_copy(update={"boom_ram": ram})
    return float(doing.boom_lift(machine.model_copy(update={"back": back})))


_RAMS: tuple[tuple[str, str, tuple[str, str]], ...] = (
    ("back.boom_ram", "boom ram", ("boom_lowest", "boom_highest")),
    ("back.dipper_ram", "dipper ram", ("folded", "stretched")),
    ("back.bucket_ram", "bucket ram", ("uncurled", "curled")),
    ("front.tilt_ram", "tilt ram", ("rolled_back", "dumped")),
)
FAR = 6.0
"""Standard deviations that both ends of a stroke lie off where the ram turns its link the other
way round [-]."""


def _strokes(
    machine: Machine, kind: MachineKind, known: Mapping[str, Real]
) -> Iterator[UnlikelyFigure]:
    """Rams that would move their link likelier if they turned it the other way."""
    of = {each.key: each for each in parameters(kind)}
    for key, words, ends in _RAMS:
        where, name = key.split(".")
        ram: LinkRam | TiltRam = getattr(getattr(machine, where), name)

        def off(figures: Mapping[str, Real], ends: tuple[str, str] = ends) -> float:
            return max(
                abs(_off(of[end], figures[end], size=0.0, unsure=0.0))
                if math.isfinite(figures[end])
                else math.inf
                for end in ends
            )

        if off(known) < FAR:
            continue
        way: Literal["up", "down"] = "down" if ram.lengthens == "up" else "up"
        other = _with_way(machine, where, name, way)
        turned = figures_of(other, pattern=kind.pattern)
        if off(turned) < off(known) / 2:
            seen = Seen(of[ends[1]].words, known[ends[1]], float(turned[ends[1]]), "angle")
            yield UnlikelyFigure(
                ", ".join(ends),
                f"lengthens of the {words}",
                0.0,
                0.0,
                off(known),
                "lengthens",
                seen,
            )


def _with_way(machine: Machine, where: str, name: str, way: str) -> Machine:
    end = getattr(machine, where)
    ram = getattr(end, name).model_copy(update={"lengthens": way})
    return machine.model_copy(update={where: end.model_copy(update={name: ram})})


def _counts(machine: Machine, kind: MachineKind) -> Iterator[UnlikelyFigure]:
    """Rams beside each other, of which every machine of a kind has as many."""
    for key in ("back.boom_ram", "back.dipper_ram", "back.bucket_ram", "front.lift_ram",
                "front.tilt_ram"):  # fmt: skip
        where, name = key.split(".")
        mine, usual = (getattr(getattr(x, where), name).count for x in (machine, kind.pattern))
        if mine > 2 or (mine == 2 and usual == 1 and where == "back"):
            words = f"count of the {name.replace('_', ' ')}"
            look, get, unit = LOOK["boom" if where == "back" else "loader"]
            lift = float(get(machine))
            seen = Seen(look, lift, lift * usual / mine, unit)
            yield UnlikelyFigure(key, words, mine, usual, math.inf, "count", seen)


LOOK: dict[str, tuple[str, Callable[[Machine], Real], Kind]] = {
    "reach": ("how far from the slew axis the teeth reach on the ground", doing.reach_on_ground,
              "length"),
    "hinge": ("how high the front hinge pin goes", doing.hinge_height, "length"),
    "dig": ("how deep the teeth dig", doing.dig_depth, "length"),
    "nose": ("how high the nose pin goes", doing.highest_nose, "length"),
    "loader": ("what the loader lifts to full height", doing.loader_lift, "mass"),
    "boom": ("what boom and dipper lift stretched out", doing.lift_at_full_reach, "mass"),
    "curl": ("how hard the bucket breaks out", doing.bucket_force, "force"),
    "front axle": ("what the front axle carries as it travels", lambda m: m.weights.front_axle,
                   "mass"),
    "axis": ("how far the slew axis stands behind the rear hub", lambda m: -m.back.slew_axis_x,
             "length"),
}  # fmt: skip
_BY_PREFIX = (
    ("front_share", "front axle"), ("total", "front axle"), ("pads_behind", "axis"),
    ("slew_behind", "axis"), ("lift_", "loader"), ("tilt_", "hinge"), ("arm_", "hinge"),
    ("hinge", "hinge"), ("bucket_", "curl"), ("dipper_bore", "boom"), ("pressure", "boom"),
    ("efficiency", "boom"), ("boom_low", "dig"), ("boom_high", "nose"), ("boom_", "reach"),
    ("dipper_", "reach"), ("foot_", "reach"), ("folded", "dig"), ("stretched", "reach"),
)  # fmt: skip


def _seen(kind: MachineKind, known: Mapping[str, Real], named: UnlikelyFigure) -> Seen | None:
    """What the figure would do that can be looked at; the figure itself where it is seen."""
    look = next((to for prefix, to in _BY_PREFIX if named.name.startswith(prefix)), None)
    if look is None:
        return None
    words, get, unit = LOOK[look]
    with np.errstate(all="ignore"):
        given, likely = (
            float(get(built(kind, {**known, named.name: value})))
            for value in (named.given, named.likely)
        )
    if not (math.isfinite(given) and math.isfinite(likely)):
        return None
    return Seen(words, given, likely, unit)
