"""The worked steps of a ram."""

from __future__ import annotations

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.capacity import RamCapacity, plane_gravity
from liftcalc.physics import formulas
from liftcalc.physics.joints import moment_per_kilogram
from liftcalc.physics.worked import work
from liftcalc.working.rows import (
    Row,
    Section,
    allowed_rows,
    bracketed,
    figure,
    plain_row,
    rows_of,
    sum_rows,
)


def ram_section(answer: Answer, ram: RamCapacity, criterion: Criterion) -> Section:
    """What a ram can carry: its force, its moment arm, the links, the load."""
    joint, arm = ram.joint, answer.reached.arm
    gravity_u, gravity_w = plane_gravity(arm, gravity=answer.reached.gravity, slew=answer.lift.slew)
    rows = rows_of(
        work(
            joint.name,
            formulas.ram_force,
            bore=float(joint.ram.bore),
            rod=float(joint.ram.rod),
            count=float(joint.ram.count),
            pressure=ram.pressure,
            efficiency=float(answer.lift.machine.hydraulics.efficiency),
        )
    )
    rows += _arm_rows(ram)
    parts = [
        (
            lump.name,
            float(lump.mass),
            float(
                moment_per_kilogram(
                    at=lump.at, pivot=joint.pivot, gravity_u=gravity_u, gravity_w=gravity_w
                )
            ),
        )
        for lump in joint.lumps
    ]
    rows += sum_rows(
        parts, what="moment of the links' weight", letter=r"M_\ell", unit="N·m", per="k"
    )
    rows += _swung(answer, ram)
    rows += rows_of(
        work(
            joint.name,
            formulas.joint_load,
            push=float(ram.push),
            pull=float(ram.pull),
            moment_arm=float(joint.moment_arm),
            links_moment=float(ram.links_moment),
            joint_unit_moment=float(ram.load_unit_moment),
        )
    )
    return Section(
        title=f"{joint.name.capitalize()}: what it can carry",
        rows=rows + allowed_rows(answer, criterion),
        source="equilibrium of moments about the joint",
    )


def _swung(answer: Answer, ram: RamCapacity) -> tuple[Row, ...]:
    """What hangs leans with the load: the links' moment with it."""
    hung = answer.lift.hung
    if not hung:
        return ()
    return (
        plain_row(
            "moment of the links, the attachment leaning with the load",
            "",
            f"{figure(float(ram.links_moment))} N·m",
            letters=r"M_\ell + m_{\mathrm{hung}} \cdot (k_L - k)",
            why=f"{figure(hung)} kg hang and lean up to the swing, the worse way",
        ),
    )


def _arm_rows(ram: RamCapacity) -> tuple[Row, ...]:
    """Length and moment arm of a ram; for an attachment through its four-bar."""
    joint = ram.joint
    if joint.tilt is None:
        return rows_of(
            work(
                joint.name,
                formulas.ram_geometry,
                pivot_u=float(joint.pivot.u),
                pivot_w=float(joint.pivot.w),
                base_pin_u=float(joint.base_pin.u),
                base_pin_w=float(joint.base_pin.w),
                rod_pin_u=float(joint.rod_pin.u),
                rod_pin_w=float(joint.rod_pin.w),
            )
        )
    bar, tilt = joint.bar, joint.tilt
    assert bar is not None  # a joint with a tilt has the four-bar it came from
    rocker = work(
        joint.name,
        formulas.ram_geometry,
        pivot_u=float(bar.rocker_pivot.u),
        pivot_w=float(bar.rocker_pivot.w),
        base_pin_u=float(bar.ram_base.u),
        base_pin_w=float(bar.ram_base.w),
        rod_pin_u=float(tilt.ram_pin.u),
        rod_pin_w=float(tilt.ram_pin.w),
    )
    ratio = work(
        joint.name,
        formulas.four_bar_ratio,
        pivot_u=float(bar.pivot.u),
        pivot_w=float(bar.pivot.w),
        crank_pivot_u=float(bar.rocker_pivot.u),
        crank_pivot_w=float(bar.rocker_pivot.w),
        crank_pin_u=float(tilt.rocker_pin.u),
        crank_pin_w=float(tilt.rocker_pin.w),
        link_pin_u=float(tilt.link_pin.u),
        link_pin_w=float(tilt.link_pin.w),
    )
    arm, turns = rocker.result, ratio.result
    whole = Row(
        why="moment arm at the attachment: that at the rocker times the velocity ratio",
        letters=r"r = r_{\mathrm{rocker}} \cdot i",
        numbers=rf"{bracketed(arm)} \cdot {bracketed(turns)}",
        plain=f"moment arm at the attachment = {bracketed(arm)} · {bracketed(turns)}",
        result=f"{figure(float(joint.moment_arm))} m",
    )
    return (*rows_of(rocker), *rows_of(ratio), whole)
