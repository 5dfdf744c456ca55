"""Options of a command from the fields of the record that it hands on: each is said once.

A record such as ``LiftRequest`` names what may be typed; a table gives every field its help. The
decorator makes them one command, so that two commands that ask for a lift cannot differ.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Annotated, Any, TypeVar, get_type_hints

import typer

from liftcalc.cli import log_options

Record = TypeVar("Record")

MACHINE = "A shipped machine's name, or a .toml file."

LOG: dict[str, str] = {
    "species": "Common or botanical name; 'unknown hardwood'.",
    "length": "Of the log, butt to top.",
    "butt": "", "mid": "", "top": "", "bark": "", "moisture": "", "ice": "", "mud": "",
    "root_plate": "", "limbs": "",
}  # fmt: skip
"""The log; those without a help take the option of ``log_options``."""

_LOG_OPTIONS: dict[str, Any] = {
    "butt": log_options.Butt, "mid": log_options.Mid, "top": log_options.Top,
    "bark": log_options.BarkTaken, "moisture": log_options.Moisture, "ice": log_options.Ice,
    "mud": log_options.Mud, "root_plate": log_options.RootPlate, "limbs": log_options.Limbs,
}  # fmt: skip

GROUND: dict[str, str] = {
    "slope": "Of the ground, '3 deg', '5 %' or '1 in 20'.",
    "uphill": "Where uphill is: 0 deg ahead, 90 deg to the left.",
    "levelled": "The machine itself stands level, brought so on its stabilisers.",
    "ground": "What it stands on: 'firm clay', 'dense gravel', 'peat', 'unknown' and more.",
    "mat": "Side of a square mat under each pad.",
    "friction": "Grip of wheels or pads on this ground, '0.3'; else a careful one for the ground.",
}
JOURNEY: dict[str, str] = {
    "sinkage": "How deep the tyres sink on the way.",
    "speed": "On the move, '4 km/h'.",
    "turn_radius": "Of the tightest turn on the way, at the middle of the rear axle.",
    "braking": "How hard it brakes, '2 m/s2'.",
}
SLEWING: dict[str, str] = {
    "slew_speed": "How fast the back end slews, '20 deg/s'.",
    "slew_stop": "In what time slewing starts or stops, '1 s'.",
}
NEAR: dict[str, str] = {
    "rules": "Whose distances to wires: 'uk' or 'us'.",
    "wires": "Along the ground from slew axis (back) or front axle to below a wire; or 'none'.",
    "wires_voltage": "Of the wires, '11 kV' (US rules).",
    "wires_on": "'wood poles' or 'steel towers' (UK rules).",
    "edge": "From the nearest pad or tyre to a ditch or bank edge; or 'none'.",
    "edge_depth": "How deep that ditch or bank is.",
    "people": "From the point below the hook to the nearest person; or 'none'.",
}
RIGGING: dict[str, str] = {
    "swing": "Lean of a hanging log, taken the worst way.",
    "sling": "'choked', 'single', 'basket' or 'two legs'.",
    "sling_length": "Of the sling, or of each leg.",
    "leg_spread": "How far apart two legs hold the log.",
    "slung_at": "Where the sling holds, from the butt.",
    "rigging_mass": "All that hangs between lift point and log.",
    "sling_kind": "'chain grade 80', 'chain grade 30', 'round sling', 'wire rope', 'fibre rope'.",
    "sling_size": "Thickness of a chain's bar or of a rope.",
    "sling_wll": "Working load limit on its tag, one straight leg.",
    "hook_wll": "Of the hook.",
    "shackle_wll": "Of the shackle; or 'none'.",
    "hitch_wll": "Of the eye or hitch on the machine that the hook hangs in.",
    "lifted": "'whole', 'one end', 'drawn' or 'drawn, one end up'.",
    "ground_end": "The end that stays on the ground, 'butt' or 'top'.",
    "hook_at": "Hook along the log from the end on the ground.",
    "breakout": "How many times its weight the first pull is, if bedded or frozen in.",
    "drag_friction": "Of a drawn log on the ground.",
    "surface": "What a jaw presses on: 'bark on', 'bark on, wet', 'peeled', 'frosted' …",
}
STATE: dict[str, str] = {
    "pressure": "Read on a gauge; replaces the book's, never above it.",
    "off_centre": "How far a carried log lies off its balance.",
    "empty_seat": "Nobody sits in the seat.",
}

LIFT: dict[str, str] = {
    "end": "'front' (loader) or 'back' (backhoe).",
    "reach": "Lift point from the slew axis (back); ahead of the front axle (front, optional).",
    "height": "Height of the lift point above the ground.",
    "slew": "0 deg straight back, positive to the machine's left.",
    "sideshift": "Of the slew axis, positive to the left.",
    **LOG,
    "attachment": "What is fitted to the lifting end.",
    "lift_point": "Which lift point of it.",
    "other_attachment": "What is fitted to the other end.",
    "tilt": "Front attachment to the horizontal; up is rolled back.",
    "curl": "Share of the bucket ram's stroke that is out, '80 %'.",
    "stance": "'wheels', 'stabilisers' or 'stabilisers and bucket' (bucket pressed down).",
    "travelling": "Carry it on the move.",
    **GROUND,
    **JOURNEY,
    **SLEWING,
    "accelerate_forward": "Of the machine; braking is negative.",
    "accelerate_left": "Of the machine; a left turn is positive.",
    **RIGGING,
    **NEAR,
    "plate": "Rated load for this lift on the machine's plate or chart, below what is fitted.",
    **STATE,
}
"""Help of every field of ``LiftRequest``, in the order that it is printed."""


def takes(
    record: type[Record], helps: Mapping[str, str], *, machine_needed: bool = True
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command an option for every field of a record, and hand it the record made of them.

    Parameters
    ----------
    record : type
        A dataclass whose fields are texts and flags; ``machine`` is its argument.
    helps : mapping
        Field to help, for every field but ``machine``, in the order of ``--help``.
    machine_needed : bool
        Whether its argument may not be left out.

    Returns
    -------
    decorator
        The command's first parameter becomes the record; its others stay as they are.
    """
    options = _parameters(record, helps, machine_needed=machine_needed)

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        hints = get_type_hints(command, include_extras=True)
        first, *others = inspect.signature(command).parameters.values()
        # A command's own arguments stay ahead of its options, the machine after them.
        own = [
            each.replace(annotation=hints[each.name], kind=inspect.Parameter.KEYWORD_ONLY)
            for each in others
        ]

        def run(**given: Any) -> None:
            said = {name: value for each in options if (value := given.pop(name := each.name))}
            command(record(**said), **given)

        every = [
            *(each for each in own if _leads(each)),
            *options,
            *(each for each in own if not _leads(each)),
        ]
        run.__name__, run.__doc__ = command.__name__, command.__doc__
        run.__annotations__ = {each.name: each.annotation for each in every}
        # typer reads parameters from here; a callable has no such attribute for a type checker.
        run.__signature__ = inspect.Signature(every)  # type: ignore[attr-defined]
        assert first.default is inspect.Parameter.empty
        return run

    return decorate


def _leads(parameter: inspect.Parameter) -> bool:
    return parameter.default is inspect.Parameter.empty


def _parameters(
    record: type[Any], helps: Mapping[str, str], *, machine_needed: bool
) -> list[inspect.Parameter]:
    defaults = {each.name: each.default for each in fields(record)}
    assert set(helps) == set(defaults) - {"machine"}, set(helps) ^ set(defaults)
    machine = Annotated[str, typer.Argument(help=MACHINE)]
    made = [_parameter("machine", machine, inspect.Parameter.empty if machine_needed else "")]
    for name, text in helps.items():
        if not text:
            default = defaults[name] or None
            made.append(_parameter(name, _LOG_OPTIONS[name], default))
        elif isinstance(defaults[name], bool):
            flag = typer.Option(f"--{name.replace('_', '-')}", help=text)
            made.append(_parameter(name, Annotated[bool, flag], False))
        else:
            made.append(_parameter(name, Annotated[str, typer.Option(help=text)], defaults[name]))
    return made


def _parameter(name: str, annotation: Any, default: Any) -> inspect.Parameter:
    return inspect.Parameter(
        name, inspect.Parameter.KEYWORD_ONLY, default=default, annotation=annotation
    )
