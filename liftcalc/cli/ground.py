"""``liftcalc ground proof``: the ground proved by the machine itself."""

from __future__ import annotations

import math
from typing import Annotated

import typer

from liftcalc import units as quantities
from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.questions.proof import MINUTES, Proof, proof
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.usual import careful_lift
from liftcalc.units import System, show

Earth = Annotated[
    str, typer.Option(help="Mass of earth in the bucket, weighed or told low. Not said: none.")
]


@options.takes(LiftRequest)
def ground_proof(
    request: LiftRequest,
    earth: Earth = "",
    as_json: options.Json = False,
    units: options.Units = "metric",
) -> None:
    """How to prove the ground with the machine itself, and what that allows.

    Under the pads, or under the front tyres for a lift with the front end standing. Tell the lift
    as for a check. Exit status 0: that proof is enough for it; 1: it is not.
    """
    system, read = options.understood(units, careful_lift, request)
    if read.lift.end == "back" and not request.slew:
        raise InputError.of(
            field="slew",
            given="nothing",
            wanted="where the boom is slewed to in this lift: it decides what each pad must bear",
            fix="say the farthest of a lift that slews",
        )
    mass = quantities.read(earth, "mass", field="earth").value if earth else 0.0
    made = proof(read.lift, earth=mass)
    if as_json:
        typer.echo(document("proof", _record(made)))
    else:
        options.say(_lines(made, system, tyres=read.lift.end == "front"))
    if not made.holds:
        raise typer.Exit(1)


def _record(made: Proof) -> dict[str, object]:
    return {
        "proof": {
            "earth_kg": made.earth,
            "reach_m": made.reach,
            "height_m": made.height,
            "minutes": MINUTES,
            "proved_N": made.proved,
            "enough": made.holds,
            "pads": [
                {
                    "name": pad.name,
                    "slew_rad": pad.slew,
                    "proved_N": pad.proved,
                    "allowed_N": pad.allowed,
                    "lift_N": pad.needed,
                    "enough": pad.holds,
                }
                for pad in made.pads
            ],
        },
        "caution": CAUTION,
    }


def _lines(made: Proof, system: System, *, tyres: bool) -> list[str]:
    foot = "tyre" if tyres else "pad"
    place = (
        f"{show(made.reach, 'length', system, 'near')} "
        f"{'ahead of the front axle' if tyres else 'from the slew axis'}, lift point "
        f"{show(made.height, 'length', system, 'near')} above the ground"
    )
    empty = "the boom empty"
    load = f"{show(made.earth, 'mass', system, 'down')} of earth" if made.earth else empty
    hold = (
        f"  4. Hold it there for {MINUTES} minutes. The mark must not have moved, on either stick."
    )
    on_tyres = [
        "  1. All wheels on the ground where they will stand, stabilisers up. Nobody near.",
        "  2. Mark on a stick beside each front tyre how high its rim is.",
        f"  3. With {load}, hold it here, low till the wheels stand:",
        f"     {place}.",
        hold,
        "  5. Set down. A tyre that sank has proved nothing: stand elsewhere.",
        "",
    ]
    on_pads = [
        "  1. Stabilisers down where they will stand, rear wheels off the ground, front wheels on",
        "     it, no bucket pressed. Mats as in the lift. Nobody near.",
        "  2. Put a stick in the ground beside each pad and mark the pad's height on it.",
        f"  3. With {load}, low and slowly, slew as below:",
        f"     {place}.",
        hold,
        "  5. Slew back and set down. A pad that sank has proved nothing: pack it, or stand",
        "     elsewhere.",
        "",
    ]
    lines = [
        "Proof of the ground by the machine itself",
        "",
        *(on_tyres if tyres else on_pads),
        f"  {foot:<20}{'slew':>8}{'it presses':>14}{'allowed then':>15}{'this lift asks':>17}",
    ]
    for pad in made.pads:
        proved, allowed = (
            show(each, "force", system, "down") for each in (pad.proved, pad.allowed)
        )
        asked = show(pad.needed, "force", system, "up")
        mark = "enough" if pad.holds else "not enough"
        slew = f"{math.degrees(pad.slew):+.0f}°"
        lines.append(f"  {pad.name:<20}{slew:>8}{proved:>14}{allowed:>15}{asked:>17}  {mark}")
    force = show(made.proved, "force", system, "down").replace(quantities.SPACE, " ")
    said = (
        f"If neither {foot} sank, check the lift again with --proved '{force}'."
        if made.holds
        else "That does not prove enough for this lift: earth in the bucket proves more (--earth)."
    )
    return [
        *lines,
        "",
        f"  {said}",
        "  Proved no longer after rain, at another place, or under another pad, mat or tyre.",
        "",
        CAUTION,
    ]
