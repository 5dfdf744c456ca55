"""Arms, linkages and rams in the plane of an end: u outward, w up."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, circle_area, maximum, minimum, ratio, sqrt

TwoLink = namedtuple(
    "TwoLink",
    "span_square span lengths_square lengths_product elbow_cosine elbow_sine far_along far_across "
    "first_cosine first_sine second_cosine second_sine",
)
CircleCrossing = namedtuple("CircleCrossing", "between along off crossing_u crossing_w")
FourBarRatio = namedtuple("FourBarRatio", "velocity_ratio")
RamForce = namedtuple("RamForce", "bore_area ring_area push pull")
RamGeometry = namedtuple("RamGeometry", "ram_u ram_w ram_length moment_arm")
RamOnLink = namedtuple("RamOnLink", "radii_square pins_inner pins_outer ram_length moment_arm")
JointLoad = namedtuple(
    "JointLoad",
    "pushing_moment pulling_moment upward_moment downward_moment upward_left downward_left "
    "joint_load",
)

RIGID = "exact for rigid links and pins without play"


@formula(source="law of cosines", error=RIGID)
def two_link(*, target_u: Real, target_w: Real, first_length: Real, second_length: Real) -> TwoLink:
    """Directions of a two-link arm that reaches a point, knuckle up."""
    square = step(target_u**2 + target_w**2, "distance to the target, squared")
    span = step(sqrt(square), "distance to the target")
    squares = step(first_length**2 + second_length**2, "the span of a square elbow")
    product = step(2 * first_length * second_length, "what the elbow adds at most")
    cos_e = step((square - squares) / product, "law of cosines; outside −1…1 the arm cannot reach")
    sin_e = step(
        -sqrt(1 - cos_e**2), "the second link turns down from the first; no real value out of reach"
    )
    along = step(first_length + second_length * cos_e, "both links, along the first")
    across = step(second_length * sin_e, "the second link, square to the first")
    cos_1 = step(
        ratio(target_u * along + target_w * across, square),
        "the folded arm turned until its far end is the target",
    )
    sin_1 = step(ratio(target_w * along - target_u * across, square), "the same, for the sine")
    cos_2 = step(
        (target_u - first_length * cos_1) / second_length, "from the knuckle to the target"
    )
    sin_2 = step((target_w - first_length * sin_1) / second_length, "the same, upward")
    elbow = (cos_e, sin_e, along, across)
    return TwoLink(square, span, squares, product, *elbow, cos_1, sin_1, cos_2, sin_2)


@formula(source="plane geometry", error=RIGID)
def circle_crossing(
    *,
    first_u: Real,
    first_w: Real,
    first_radius: Real,
    second_u: Real,
    second_w: Real,
    second_radius: Real,
    side: Real,
) -> CircleCrossing:
    """Where two links of known length meet."""
    out, up = second_u - first_u, second_w - first_w
    between = step(sqrt(out**2 + up**2), "distance between the two pins that are known")
    along = step(
        ratio(between**2 + first_radius**2 - second_radius**2, 2 * between),
        "law of cosines along the line between them",
    )
    off = step(
        sqrt(first_radius**2 - along**2),
        "square to it; no real value when the linkage cannot close",
    )
    crossing_u = step(
        first_u + ratio(along * out - side * off * up, between),
        "from the first pin, along and square to the line",
    )
    crossing_w = step(first_w + ratio(along * up + side * off * out, between), "the same, upward")
    return CircleCrossing(between, along, off, crossing_u, crossing_w)


@formula(source="velocity along a rigid link, any text on mechanisms", error=RIGID)
def four_bar_ratio(
    *,
    pivot_u: Real,
    pivot_w: Real,
    crank_pivot_u: Real,
    crank_pivot_w: Real,
    crank_pin_u: Real,
    crank_pin_w: Real,
    link_pin_u: Real,
    link_pin_w: Real,
) -> FourBarRatio:
    """Velocity ratio of the attachment's four-bar."""
    link_u, link_w = link_pin_u - crank_pin_u, link_pin_w - crank_pin_w
    velocity_ratio = step(
        ratio(
            (link_pin_u - pivot_u) * link_w - (link_pin_w - pivot_w) * link_u,
            (crank_pin_u - crank_pivot_u) * link_w - (crank_pin_w - crank_pivot_w) * link_u,
        ),
        "both ends of the link move equally fast along it",
    )
    return FourBarRatio(velocity_ratio)


@formula(
    source="Esposito, Fluid Power with Applications, chapter 6",
    error="back pressure is in the efficiency; a full relief pressure that the pump no longer "
    "gives overstates capacity",
)
def ram_force(*, bore: Real, rod: Real, count: Real, pressure: Real, efficiency: Real) -> RamForce:
    """Push and pull of a ram."""
    bore_area = step(circle_area(bore), "area that the oil pushes on")
    ring_area = step(
        bore_area - circle_area(rod), "area that the oil pulls on: the rod takes its share away"
    )
    push = step(
        count * pressure * efficiency * bore_area, "push = number · pressure · efficiency · area"
    )
    pull = step(
        count * pressure * efficiency * ring_area,
        "pull = number · pressure · efficiency · ring area",
    )
    return RamForce(bore_area, ring_area, push, pull)


@formula(source="virtual work: the moment of a force F along the ram is F·dℓ/dθ", error=RIGID)
def ram_geometry(
    *,
    pivot_u: Real,
    pivot_w: Real,
    base_pin_u: Real,
    base_pin_w: Real,
    rod_pin_u: Real,
    rod_pin_w: Real,
) -> RamGeometry:
    """Length and moment arm of a ram."""
    ram_u = step(rod_pin_u - base_pin_u, "from pin to pin, outward")
    ram_w = step(rod_pin_w - base_pin_w, "from pin to pin, up")
    ram_length = step(sqrt(ram_u**2 + ram_w**2), "from pin to pin")
    moment_arm = step(
        ratio(ram_w * (rod_pin_u - pivot_u) - ram_u * (rod_pin_w - pivot_w), ram_length),
        "square distance from the joint to the line of the ram, signed: dℓ/dθ",
    )
    return RamGeometry(ram_u, ram_w, ram_length, moment_arm)


@formula(source="law of cosines; virtual work", error=RIGID)
def ram_on_link(
    *,
    base_from_joint_u: Real,
    base_from_joint_w: Real,
    rod_on_link_u: Real,
    rod_on_link_w: Real,
    turn_cosine: Real,
    turn_sine: Real,
) -> RamOnLink:
    """Length and moment arm of a ram, by the turn of the link it holds."""
    radii_square = step(
        base_from_joint_u**2 + base_from_joint_w**2 + rod_on_link_u**2 + rod_on_link_w**2,
        "the two pins stay as far from the joint, however the link turns",
    )
    pins_inner = step(
        base_from_joint_u * rod_on_link_u + base_from_joint_w * rod_on_link_w,
        "what a turn of nought brings together",
    )
    pins_outer = step(
        base_from_joint_w * rod_on_link_u - base_from_joint_u * rod_on_link_w,
        "what a quarter turn brings together",
    )
    ram_length = step(
        sqrt(radii_square - 2 * pins_inner * turn_cosine - 2 * pins_outer * turn_sine),
        "law of cosines",
    )
    moment_arm = step(
        ratio(pins_inner * turn_sine - pins_outer * turn_cosine, ram_length),
        "its derivative by the turn: dℓ/dθ",
    )
    return RamOnLink(radii_square, pins_inner, pins_outer, ram_length, moment_arm)


@formula(
    source="equilibrium of moments about the joint",
    error="pin friction is not credited; means something only where both moments left are above "
    "zero, see `physics.joints.stall`",
)
def joint_load(
    *, push: Real, pull: Real, moment_arm: Real, links_moment: Real, joint_unit_moment: Real
) -> JointLoad:
    """Load that a joint's ram can carry."""
    pushing = step(push * moment_arm, "force times moment arm, positive turning up")
    pulling = step(-pull * moment_arm, "the same, the other way round")
    upward = step(maximum(pushing, pulling), "pushing or pulling, whichever turns the link up")
    downward = step(-minimum(pushing, pulling), "the other of the two turns it down")
    up_left = step(
        upward + links_moment, "what is left upward once the links' own weight is carried"
    )
    down_left = step(downward - links_moment, "what is left downward")
    load = step(
        maximum(ratio(up_left, -joint_unit_moment), ratio(down_left, joint_unit_moment)),
        "a load that turns the joint down uses the upward moment, and the other way round",
    )
    return JointLoad(pushing, pulling, upward, downward, up_left, down_left, load)
