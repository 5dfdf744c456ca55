"""The worked steps of what the ground carries under the planned load."""

from __future__ import annotations

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.physics import formulas
from liftcalc.physics.reactions import Bound, Reaction, carried
from liftcalc.physics.tipping import Support
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import WrenchFunctional
from liftcalc.working.rows import Row, Section, figure, floats, plain_row, rows_of


def footing_sections(answer: Answer) -> tuple[Section, ...]:
    """Settled forces of all supports, and the most that each pad may carry."""
    ground_forces = answer.ground_forces
    title = f"Ground under {figure(ground_forces.load)} kg on the lift point"
    if not ground_forces.stands:
        row = plain_row("the machine tips: no forces of the ground hold it", "", "", letters="")
        return (Section(title=title, rows=(row,)),)
    pin = next((each for each in ground_forces.reactions if each.contact.z), None)
    rows = _weight_rows(answer)
    rows += _springs(answer) if pin is None else _pin_rows(answer, pin)
    made = [Section(title=title, rows=rows, source="equilibrium of a rigid body")]
    made += [_pad(answer, foot) for foot in ground_forces.feet if not foot.tyre]
    return tuple(made)


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
    reactions, weights = answer.ground_forces.reactions, answer.ground_forces.weights
    back = sorted((each for each in reactions if not each.contact.z), key=lambda e: -e.contact.y)
    (f_x, f_y, f_z), (m_x, m_y, m_z) = floats(weights.force), floats(weights.moment)
    three = work(
        "Three supports",
        formulas.three_supports,
        force_x=f_x,
        force_y=f_y,
        force_z=f_z,
        moment_x=m_x,
        moment_y=m_y,
        moment_z=m_z,
        back_x=float(back[0].contact.x),
        left_y=float(back[0].contact.y),
        right_y=float(back[1].contact.y),
        pin_x=float(pin.contact.x),
        pin_height=float(pin.contact.z),
    )
    return rows_of(three) + rows_of(_tyres(answer, pin))


def _tyres(answer: Answer, pin: Reaction) -> Worked:
    return work(
        "Front tyres",
        formulas.axle_tyres,
        pin_up=float(pin.up),
        pin_left=float(pin.left),
        pin_height=float(pin.contact.z),
        front_track=float(answer.lift.machine.wheels.front_track),
    )


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
    support = next(each for each in answer.reached.standing.supports if each.name == foot.name)
    bound, pressing = _greatest(answer, support)
    rows: tuple[Row, ...] = ()
    if pressing > 0:
        force = work(
            foot.name,
            formulas.support_force,
            pressing_moment=pressing,
            support_lever=float(bound.lever),
        )
        rows += rows_of(force)
    else:
        rows += (plain_row("nothing presses on it", "", "0 N", letters="N_i"),)
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
    if foot.needed is not None and ground is not None and ground.allowed is not None:
        rows += (
            plain_row(
                "area that it needs",
                f"{figure(foot.worst)} / {figure(ground.allowed)}",
                f"{figure(foot.needed)} m²",
                letters=r"A_{\min} = N_i / p_{\max}",
                why=f"pressure presumed of {ground.name}",
            ),
        )
    about = f"about the line {bound.line.name}"
    return Section(
        title=f"Greatest force on the {foot.name}, {about}",
        rows=rows,
        source="no stiffness of the ground can give more",
    )


def _greatest(answer: Answer, support: Support) -> tuple[Bound, float]:
    """The bound that sets a support's greatest force, and the moment that presses on it [N.m]."""
    reached, ground_forces = answer.reached, answer.ground_forces
    gravity = reached.gravity

    def pressing(bound: Bound) -> float:
        """Moment of machine and load, in whatever state and lean of them makes it greatest."""
        still = max(
            float(each.mass * bound.moment.unit(x=each.x, y=each.y, z=each.z, gravity=gravity))
            for each in reached.wholes
        )
        away = WrenchFunctional().plus(bound.moment, -1.0)
        return still - ground_forces.load * min(
            float(away.unit(x=x, y=y, z=z, gravity=gravity, swing=reached.lean))
            for x, y, z in reached.loads
        )

    ways = carried(support, lines=reached.standing.lines)
    least = [
        min(((each, pressing(each)) for each in way), key=lambda got: got[1] / got[0].lever)
        for way in ways
    ]
    return max(least, key=lambda got: got[1] / got[0].lever)
