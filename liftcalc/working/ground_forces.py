"""The worked steps of what the supports press on the ground with, under the planned load."""

from __future__ import annotations

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.physics.reactions import Reaction
from liftcalc.working.rows import Row, Section, figure, plain_row, rows_of


def ground_sections(answer: Answer) -> tuple[Section, ...]:
    """Settled forces of all supports, and the most that each pad may carry."""
    ground_forces = answer.ground_forces
    title = f"Ground under {figure(ground_forces.load)} kg on the lift point"
    if not ground_forces.stands:
        row = plain_row("the machine tips: no forces of the ground hold it", "", "", letters="")
        return (Section(title=title, rows=(row,)),)
    pin = next((each for each in ground_forces.reactions if each.contact.kind == "axle pin"), None)
    rows = _weight_rows(answer)
    rows += _springs(answer) if pin is None else _pin_rows(answer, pin)
    made = [Section(title=title, rows=rows, source="equilibrium of a rigid body")]
    return (*made, *pad_sections(answer))


def pad_sections(answer: Answer, *, corners: bool = True) -> tuple[Section, ...]:
    """The most that each pad may carry, and each corner of a pressed bucket."""
    if not answer.ground_forces.stands:
        return ()
    return tuple(
        _pad(answer, foot)
        for foot in answer.ground_forces.feet
        if foot.kind == "pad" or (corners and foot.kind == "corner")
    )


def _weight_rows(answer: Answer) -> tuple[Row, ...]:
    """What presses on the ground: force and moment about the origin."""
    weights = answer.ground_forces.weights
    return tuple(
        plain_row(
            f"{what} of all weights, {way}",
            "",
            f"{figure(float(part))} {unit}",
            letters=f"{letter}_{axis}",
            why="machine and load, about the origin of the frame",
        )
        for what, letter, unit, three in (
            ("force", "F", "N", weights.force),
            ("moment", "M", "N·m", weights.moment),
        )
        for part, axis, way in zip(three, "xyz", ("forward", "left", "up"), strict=True)
    )


def _pin_rows(answer: Answer, pin: Reaction) -> tuple[Row, ...]:
    """Two supports and a pin: statics alone; then the two tyres of its axle."""
    tyres = [each.settled for each in answer.ground_forces.feet if each.settled is not None]
    return tuple(row for each in (*pin.worked, *tyres[:1]) for row in rows_of(each))


def _springs(answer: Answer) -> tuple[Row, ...]:
    """Four or more supports: what each carries on equally stiff ground, and their sum."""
    rows = tuple(
        plain_row(
            f"force up on the {each.contact.name}",
            "",
            f"{figure(float(each.up))} N",
            letters="N_i",
            why="it settles as a rigid body on equal springs that only push",
        )
        for each in answer.ground_forces.reactions
    )
    forces = [float(each.up) for each in answer.ground_forces.reactions]
    return (
        *rows,
        plain_row(
            "sum of the forces up, the weight",
            " + ".join(figure(each) for each in forces),
            f"{figure(sum(forces))} N",
            letters=r"\sum N_i = -F_z",
        ),
    )


def _pad(answer: Answer, foot: SupportForce) -> Section:
    """The most that a pad or corner may carry, and the plate that the ground asks for."""
    force = foot.greatest
    assert force is not None  # only tyres have none
    rows = rows_of(force)
    if force.result <= 0:
        rows = (plain_row("nothing presses on it", "", "0 N", letters="N_i"),)
    if foot.area is not None and foot.pressure is not None:
        rows += (
            plain_row(
                "pressure under it",
                f"{figure(foot.worst)} / {figure(foot.area)}",
                f"{figure(foot.pressure)} Pa",
                letters=r"p = N_i / A",
            ),
        )
    ground = answer.ground_forces.ground
    rows += tuple(row for worked in foot.allowing for row in rows_of(worked))
    if foot.needed is not None and ground is not None:
        rows += (
            plain_row(
                "area of the square plate that it needs",
                "",
                f"{figure(foot.needed)} m²",
                letters=r"A_{\min}",
                why=f"on {ground.name}; under sand and gravel the pressure grows with the width",
            ),
        )
    return Section(
        title=f"Greatest force on the {foot.name}, about the line {force.label}",
        rows=rows,
        source="no stiffness of the ground can give more",
    )
