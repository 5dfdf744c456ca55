"""Proofs of the formulas: the functions themselves, run on symbols, in equations that must hold.

Every assertion is of an expression that must simplify to nothing.
"""

from __future__ import annotations

import sympy as sp

from liftcalc.physics import formulas
from liftcalc.physics.algebra import given, letter, lines
from liftcalc.physics.tipping import Line, Support
from liftcalc.physics.wrench import moment_about
from liftcalc.units import G0

L = sp.Symbol("log_length", positive=True)
D0, D1, DM, X, A, C = sp.symbols("d0 d1 dm x a c", positive=True)
TURN, T = sp.symbols("turn t", real=True)
CONE_SECTION = sp.pi / 4 * (D0 + (D1 - D0) * X / L) ** 2
CONE = sp.integrate(CONE_SECTION, (X, 0, L))
PARABOLOID = sp.pi / 4 * sp.integrate(D0**2 + (D1**2 - D0**2) * X / L, (X, 0, L))
# The neiloid's section goes as the cube of a line, so its ends are written as cubes.
NEILOID = sp.integrate((A + (C - A) * X / L) ** 3, (X, 0, L))


def zero(*expressions: sp.Expr) -> bool:
    """Whether every expression is nothing, whatever its symbols stand for."""
    return all(sp.simplify(sp.nsimplify(each, rational=True)) == 0 for each in expressions)


def letters(words: str) -> tuple[sp.Symbol, ...]:
    """The symbols of words, by which ``run`` calls a formula."""
    return tuple(letter(word) for word in words.split())


def run(formula, **instead):
    """A formula on the symbols of its own words, some of them given otherwise."""
    return formula(**{word: instead.get(word, letter(word)) for word in given(formula.__name__)})


def round_of(area: sp.Expr) -> sp.Expr:
    return 2 * sp.sqrt(area / sp.pi)


def log(formula, butt=D0, top=D1, middle=None):
    """The last step of a formula of a log with these diameters."""
    diameters = {"butt_diameter": butt, "top_diameter": top, "middle_diameter": middle}
    return run(formula, log_length=L, **diameters)[-1]


PARABOLOID_MIDDLE = sp.sqrt((D0**2 + D1**2) / 2)
NEILOID_ENDS = {"butt": round_of(A**3), "top": round_of(C**3)}


def test_newtons_rule_is_exact_for_cone_paraboloid_and_neiloid():
    rule = formulas.newton_volume
    assert zero(log(rule, middle=(D0 + D1) / 2) - CONE)
    assert zero(log(rule, middle=PARABOLOID_MIDDLE) - PARABOLOID)
    assert zero(log(rule, middle=round_of(((A + C) / 2) ** 3), **NEILOID_ENDS) - NEILOID)


def test_smalians_rule_is_exact_for_a_paraboloid_and_never_below_cone_and_neiloid():
    rule = formulas.two_end_volume
    assert zero(log(rule) - PARABOLOID)
    assert zero(log(rule) - CONE - sp.pi * L * (D0 - D1) ** 2 / 24)
    assert zero(log(rule, **NEILOID_ENDS) - NEILOID - L / 4 * (A + C) * (A - C) ** 2)


def test_hubers_rule_is_exact_for_a_paraboloid_and_below_a_cone():
    rule = formulas.middle_volume
    assert zero(log(rule, middle=PARABOLOID_MIDDLE) - PARABOLOID)
    assert zero(CONE - log(rule, middle=(D0 + D1) / 2) - sp.pi * L * (D0 - D1) ** 2 / 48)


def test_the_balance_point_is_that_of_the_section_through_all_three_measured_ones():
    section = (
        sp.pi
        / 4
        * (
            D0**2 * (1 - X / L) * (1 - 2 * X / L)
            + DM**2 * 4 * X / L * (1 - X / L)
            + D1**2 * X / L * (2 * X / L - 1)
        )
    )
    moment, volume = (sp.integrate(each, (X, 0, L)) for each in (X * section, section))
    assert zero(log(formulas.balance_point, middle=DM) - moment / volume)


def test_the_balance_point_of_two_ends_is_that_of_a_cone_and_of_one_diameter_the_middle():
    moment = sp.integrate(X * CONE_SECTION, (X, 0, L))
    assert zero(log(formulas.two_end_balance_point) - moment / CONE)
    assert zero(
        log(formulas.middle_balance_point) - log(formulas.two_end_balance_point, butt=D0, top=D0)
    )


def test_a_root_plate_and_its_log_balance_about_their_common_point():
    (at,) = run(formulas.root_plate_balance)
    trunk, balance, plate = letters("trunk_mass balance_from_butt root_plate_mass")
    assert zero(trunk * (balance - at) - plate * at)


def test_saturated_wood_is_substance_and_water_that_fill_the_whole_volume():
    gravity, wall = letters("basic_gravity cell_wall_gravity")
    _, ceiling, saturated = (line.expression for line in lines("saturated_density"))
    assert zero(ceiling - (wall - gravity) / (wall * gravity))
    closed = 1000 * (1 + gravity * (1 - 1 / wall))
    assert zero(saturated.subs(letter("moisture_ceiling"), ceiling) - closed)
    upper, densest = (lines("densest_wood")[place].expression for place in (1, 3))
    point, spread = letters("upper_point gravity_spread")
    assert zero(upper - gravity * (1 + point * spread))
    assert zero(densest - closed.subs(gravity, letter("upper_gravity")))


def test_a_low_and_a_planning_mass_are_likely_ones_with_every_part_out_the_same_way():
    words = letters(" ".join(given("low_log")))
    positive = {word.name: sp.Symbol(word.name, positive=True) for word in words}
    volume, density, bark, share, added, of_volume, of_density, of_guess = positive.values()
    spread = sp.sqrt(of_volume**2 + of_density**2)
    low = formulas.low_log(**positive)
    # With neither floor nor ceiling for the density of the wood.
    planning = formulas.planning_log(**positive, high_density=0, densest_density=sp.oo)
    for side, mass in ((-1, low.low_mass), (1, planning.planning_mass)):
        guess = 1 + side * sp.Rational("1.645") * of_guess
        likely = formulas.likely_log(
            volume=volume,
            likely_density=density * (1 + side * sp.Rational("1.645") * spread),
            bark_mass=bark * guess,
            added_share=share * guess,
            added_mass=added * guess,
        )
        assert zero(mass - likely.likely_mass)
        assert zero(likely.likely_mass - likely.stem_mass * (1 + share * guess) - added * guess)


def test_gravity_of_a_machine_at_rest_is_standard_whatever_the_slope():
    felt = run(formulas.effective_gravity)
    own = letters("acceleration_x acceleration_y acceleration_z")
    assert zero(sum((g + a) ** 2 for g, a in zip(felt, own, strict=True)) - G0**2)
    level = run(formulas.effective_gravity, slope=sp.Integer(0))
    assert zero(level[0] + own[0], level[1] + own[1], level[2] + own[2] + G0)
    # On a slope it pulls downhill: backward with the nose uphill, right with the left side uphill.
    steep = sp.pi / 6
    nose, left = (run(formulas.effective_gravity, slope=steep, heading=h) for h in (0, sp.pi / 2))
    assert zero(nose.gravity_x + own[0] + G0 / 2, left.gravity_y + own[1] + G0 / 2)


def test_moment_about_a_line_is_the_cross_product_along_it_wherever_it_starts():
    point, start, end, gravity = (
        sp.Matrix(sp.symbols(" ".join(f"{name}_{axis}" for axis in "xyz"), real=True))
        for name in ("point", "start", "end", "gravity")
    )

    def counts(first, last):
        line = Line("", *(Support("", *place, kind="pad") for place in (first, last)))
        x, y, z = point
        return moment_about(line).unit(x=x, y=y, z=z, gravity=tuple(gravity))

    along = (end - start) / (end - start).norm()
    assert zero(counts(start, end) - (point - start).cross(gravity).dot(along))
    # Half way along it is the same line.
    assert zero(counts(start, end) - counts((start + end) / 2, end))


def test_the_tipping_load_leaves_no_moment():
    holding, unit = letters("holding_moment load_unit_moment")
    assert zero(holding + run(formulas.tipping_load).tipping_load * unit)


def test_a_two_link_arm_reaches_its_target_by_two_directions():
    arm = run(formulas.two_link)
    u, w, first, second = letters("target_u target_w first_length second_length")
    c1, s1, c2, s2 = arm[-4:]
    assert zero(c1**2 + s1**2 - 1, c2**2 + s2**2 - 1)
    assert zero(first * c1 + second * c2 - u, first * s1 + second * s2 - w)
    # The turn from the first to the second is the elbow's.
    assert zero(c1 * c2 + s1 * s2 - arm.elbow_cosine, c1 * s2 - s1 * c2 - arm.elbow_sine)
    level = formulas.two_link(target_u=1, target_w=0, first_length=1, second_length=1)
    assert level.first_sine > 0 > level.second_sine  # the knuckle is above


def test_at_full_utilisation_the_log_is_the_heaviest():
    used = run(formulas.utilisation)
    allowed, rigging, factor, planning = letters(" ".join(given("utilisation")))
    assert zero(used.utilisation * used.heaviest_log - planning)
    assert zero(factor * used.heaviest_log + rigging - allowed)
    of_it, share = run(formulas.allowed_load), letter("share")
    assert zero(of_it.usable_capacity / letter("capacity") - share * letter("tolerance_share"))
    assert zero(of_it.allowed * letter("load_factor") - of_it.usable_capacity)


def test_a_ram_pushes_on_its_bore_and_pulls_on_what_the_rod_leaves():
    force = run(formulas.ram_force)
    bore, rod, count, pressure, efficiency = letters("bore rod count pressure efficiency")
    effort = count * pressure * efficiency
    assert zero(force.push - effort * sp.integrate(2 * sp.pi * X, (X, 0, bore / 2)))
    assert zero(force.push - force.pull - effort * sp.integrate(2 * sp.pi * X, (X, 0, rod / 2)))


def test_the_moment_arm_of_a_ram_is_the_derivative_of_its_length():
    ram = run(formulas.ram_geometry)
    cu, cw, bu, bw, tu, tw = letters("pivot_u pivot_w base_pin_u base_pin_w rod_pin_u rod_pin_w")
    turned = (
        cu + (tu - cu) * sp.cos(TURN) - (tw - cw) * sp.sin(TURN),
        cw + (tu - cu) * sp.sin(TURN) + (tw - cw) * sp.cos(TURN),
    )
    length = sp.sqrt((turned[0] - bu) ** 2 + (turned[1] - bw) ** 2)
    assert zero(ram.ram_length - length.subs(TURN, 0))
    assert zero(ram.moment_arm - sp.diff(length, TURN).subs(TURN, 0))


def test_a_ram_on_a_turned_link_is_as_long_as_its_pins_are_apart():
    ram = run(formulas.ram_on_link, turn_cosine=sp.cos(TURN), turn_sine=sp.sin(TURN))
    fu, fw, lu, lw = letters("base_from_joint_u base_from_joint_w rod_on_link_u rod_on_link_w")
    pin = (sp.cos(TURN) * lu - sp.sin(TURN) * lw, sp.sin(TURN) * lu + sp.cos(TURN) * lw)
    square = (pin[0] - fu) ** 2 + (pin[1] - fw) ** 2
    assert zero(ram.ram_length**2 - square)
    assert zero(ram.ram_length * ram.moment_arm - sp.diff(square, TURN) / 2)


def test_the_crossing_of_two_circles_lies_on_both_of_them():
    met = run(formulas.circle_crossing)
    pu, pw, r1, qu, qw, r2, side = letters(" ".join(given("circle_crossing")))
    for u, w, radius in ((pu, pw, r1), (qu, qw, r2)):
        # What is left over vanishes with side² = 1.
        left_over = met.off**2 * (side**2 - 1)
        assert zero((met.crossing_u - u) ** 2 + (met.crossing_w - w) ** 2 - radius**2 - left_over)
    # With side = 1 it lies to the left of the line from first to second, by half the chord.
    left = (qu - pu) * (met.crossing_w - pw) - (qw - pw) * (met.crossing_u - pu)
    assert zero(left - side * met.off * met.between)


def test_both_ends_of_the_four_bars_link_move_equally_fast_along_it():
    (ratio,) = run(formulas.four_bar_ratio)
    cu, cw, au, aw, ju, jw, ku, kw = letters(" ".join(given("four_bar_ratio")))
    link = sp.Matrix([ku - ju, kw - jw])
    attached = sp.Matrix([-(kw - cw), ku - cu]).dot(link)
    assert zero(attached - ratio * sp.Matrix([-(jw - aw), ju - au]).dot(link))


def test_a_joint_is_in_balance_with_its_greatest_load():
    """Both ways round: a load that turns the joint down, and one that turns it up."""
    push, pull, links = sp.symbols("push pull links", positive=True)
    for unit, moment in ((-1, 3 * push - links), (1, 3 * pull + links)):
        load = formulas.joint_load(
            push=push, pull=pull, moment_arm=3, links_moment=-links, joint_unit_moment=unit
        )
        strong = {push: 7, pull: 5, links: 2}
        assert load.joint_load.subs(strong) == moment.subs(strong)
        assert load.upward_left.subs(strong) == (3 * push - links).subs(strong)
        assert load.downward_left.subs(strong) == (3 * pull + links).subs(strong)


def test_the_bound_of_a_support_is_in_balance():
    pressing, lever = letters("pressing_moment support_lever")
    assert zero(run(formulas.support_force).support_force * lever - pressing)


def test_three_supports_hold_every_force_and_moment():
    got = run(formulas.three_supports)
    fx, fy, fz, mx, my, mz, xb, yl, yr, xp, hp = letters(" ".join(given("three_supports")))
    # Of the force along the machine each back support takes as much as it carries.
    left, right = (-fx * up / got.back_up for up in (got.left_up, got.right_up))
    assert zero(
        got.left_up + got.right_up + got.pin_up + fz,
        left + right + fx,
        got.back_left + got.pin_left + fy,
        yl * got.left_up + yr * got.right_up - hp * got.pin_left + mx,
        -xb * (got.left_up + got.right_up) - xp * got.pin_up + my,
        xb * got.back_left + xp * got.pin_left - yl * left - yr * right + mz,
    )


def test_the_tyres_of_an_axle_hold_its_pin():
    tyres = run(formulas.axle_tyres)
    up, left, height, track = letters("pin_up pin_left pin_height front_track")
    assert zero(tyres.left_tyre + tyres.right_tyre - up)
    assert zero((tyres.left_tyre - tyres.right_tyre) * track / 2 + left * height)


def test_a_basket_hangs_in_two_tangents_and_an_arc_where_they_are_at_sixty_degrees():
    """Sling over diameter is 90° + φ + cot φ, of which the formula takes the arc's φ as 60°."""
    diameter = sp.Symbol("D", positive=True)
    phi = sp.pi / 3
    length = diameter * (sp.pi / 2 + phi + sp.cot(phi))
    (half,) = run(formulas.basket_angle, sling_length=length, largest_diameter=diameter)
    assert zero(half - phi)
    got = run(formulas.basket, basket_half_angle=half, uniform_factor=sp.oo, bend_factor=1)
    assert zero(got.basket_capacity - letter("single_leg"))


def test_the_larger_share_is_that_of_moments_about_the_other_leg():
    spread, miss = letters("leg_spread balance_miss")
    share = lines("leg_shares")[0].expression
    (inside,) = (each for each in share.args if each != 1)
    assert zero(inside * spread - (spread / 2 + miss))
    assert formulas.leg_shares(leg_spread=1.0, balance_miss=0.7).larger_share == 1


def test_at_their_capacity_the_worse_leg_of_two_has_what_a_choked_leg_may_have():
    opened = run(formulas.leg_angle)
    half = opened.included_angle / 2
    assert zero(2 * opened.free_leg * sp.sin(half) - letter("leg_spread"))
    length, thickest = letters("sling_length largest_diameter")
    assert zero(opened.free_leg + sp.pi * thickest - length)
    got = run(formulas.two_legs, included_angle=2 * half, uniform_factor=sp.oo)
    single, mode, larger = letters("single_leg mode_factor larger_share")
    assert zero(larger * got.two_leg_capacity / sp.cos(half) - mode * single)
    assert zero(run(formulas.legs, included_angle=2 * half).leg_factor - got.leg_factor)


def test_the_uniform_rating_caps_two_legs_and_turns_a_tag_into_a_leg():
    """A tag put through the legs at no angle and equal shares is the tag again, choked."""
    tag, factor, mode = sp.symbols("tag factor mode", positive=True)
    (leg,) = formulas.tagged_leg(sling_tag=tag, uniform_factor=factor)
    whole = {"single_leg": leg, "mode_factor": mode, "included_angle": 0, "larger_share": 0.5}
    capped = formulas.two_legs(**whole, uniform_factor=factor).two_leg_capacity
    assert zero(capped.subs(factor, sp.Rational(7, 5)) - mode * tag)
    assert zero(formulas.two_legs(**whole, uniform_factor=sp.oo)[-1] - 2 * mode * leg)


def test_a_part_of_the_worse_leg_is_at_its_limit_when_the_leg_pulls_by_that():
    limit, share, angle = letters("part_limit larger_share included_angle")
    (hung,) = run(formulas.part_on_leg)
    pull = formulas.leg_tension(hung_mass=hung, leg_share=share, leg_lean=angle / 2).leg_tension
    assert zero(pull - limit)


def test_a_leaning_leg_holds_its_share_by_what_of_it_points_up():
    hung, share, lean = letters("hung_mass leg_share leg_lean")
    assert zero(run(formulas.leg_tension).leg_tension * sp.cos(lean) - share * hung)


def test_two_carriers_hold_the_log_and_its_moment():
    got = run(formulas.two_point_shares)
    mass, balance, one, two = letters("log_mass balance_from_butt at_one at_two")
    assert zero(got.mass_on_one + got.mass_on_two - mass)
    assert zero(got.mass_on_one * one + got.mass_on_two * two - mass * balance)


def test_how_a_log_hangs_turned_round_is_how_far_it_was_missed():
    miss, depth = sp.symbols("miss depth", positive=True)
    (angle,) = formulas.off_balance(balance_miss=miss, hang_depth=depth)
    (back,) = formulas.level_miss(hang_angle=angle, hang_depth=depth)
    assert zero(back - miss)
    # The balance point hangs under the sling: across the plumb line nothing is left.
    assert zero(depth * sp.sin(angle) - miss * sp.cos(angle))


def test_a_log_with_one_end_up_and_one_that_is_trailed_are_in_balance():
    one_end = run(formulas.one_end_lifted, breakout_factor=sp.Integer(1))
    mass, balance, hook = letters("log_mass balance_from_ground_end hook_from_ground_end")
    assert zero(one_end.hook_mass * hook - mass * balance)
    freed = run(formulas.one_end_lifted)
    assert zero(freed.hook_mass - letter("breakout_factor") * one_end.hook_mass)
    got = run(formulas.trailed_log)
    lifted, friction, slope, rise = letters("hook_share drag_friction slope rise_angle")
    # Square to the ground and along it, then moments about the end on the ground, of the hook's
    # two forces and of the weight.
    assert zero(got.up_share + got.resting_share - sp.cos(slope))
    assert zero(got.along_share - friction * got.resting_share - sp.sin(slope))
    assert zero(
        got.up_share * sp.cos(rise)
        - got.along_share * sp.sin(rise)
        - lifted * (sp.cos(slope) * sp.cos(rise) - sp.sin(slope) * sp.sin(rise))
    )


def test_a_swinging_load_pulls_by_what_it_fell():
    """Newton along the line at the lowest place, with the speed that its fall gave."""
    (swing,) = letters("swing")
    length, mass, g = sp.symbols("length mass g", positive=True)
    speed_squared = 2 * g * length * (1 - sp.cos(swing))
    tension = mass * g + mass * speed_squared / length
    assert zero(run(formulas.swing_pull).swing_pull - tension / (mass * g))


def test_the_pull_on_the_hook_has_both_its_parts():
    up, along = sp.symbols("up along", positive=True)
    size, lean = formulas.hook_pull(up_share=up, along_share=along)
    assert zero(size * sp.cos(lean) - up, size * sp.sin(lean) - along)


def test_jaws_hold_by_friction_on_two_sides_what_is_asked_of_them():
    force, friction, safety, share = letters("jaw_force jaw_friction grip_safety gripped_share")
    got = run(formulas.jaw_load)
    assert zero(got.grip_hold - 2 * friction * force)
    assert zero(safety * got.held_load * G0 * share - 2 * friction * force)


def test_a_swing_from_rest_gains_by_the_acceleration_what_the_rise_takes():
    (a,) = letters("steady_acceleration")
    swing = run(formulas.swing_from_rest)
    # g(1 − cos 2λ) = a sin 2λ, with the double angles written out.
    half = swing.peak_swing / 2
    assert zero(2 * G0 * sp.sin(half) ** 2 - 2 * a * sp.sin(half) * sp.cos(half))
    assert zero(swing.lean - half)


def test_a_slewing_load_swings_from_its_stop_and_leans_as_a_conical_pendulum():
    reach, speed, stop, swings = letters("hook_reach slew_speed slew_stop swings_added")
    got = run(formulas.slewing_swing)
    from_rest = formulas.swing_from_rest(steady_acceleration=speed * reach / stop)
    assert zero(got.start_stop_swing - from_rest.peak_swing)
    assert zero(sp.tan(got.outward_lean) * G0 - speed**2 * reach)
    assert zero(got.slewing_swing - swings * from_rest.peak_swing - got.outward_lean)


def test_a_turn_is_a_circle():
    """Place along a circle, twice differentiated: of the axle, and of a point ahead of it."""
    speed, radius, share, ahead = letters("speed turn_radius rollover_share ahead")
    turn = run(formulas.turning)
    assert zero(turn.turning_acceleration - turn.turn_rate**2 * radius)
    angle = turn.turn_rate * T
    axle = radius * sp.Matrix([sp.sin(angle), 1 - sp.cos(angle)])
    nose = axle + ahead * sp.Matrix([sp.cos(angle), sp.sin(angle)])
    assert zero(axle.diff(T).subs(T, 0)[0] - speed)
    back, inside = -sp.Matrix(nose.diff(T, 2).subs(T, 0))
    assert zero(turn.planned_turning * share + inside)
    got = run(formulas.turning_ahead, turn_rate=turn.turn_rate)
    assert zero(got.rearward_in_turn * share - back)


def test_at_the_greatest_speed_the_planned_turn_is_at_its_limit():
    (greatest,) = run(formulas.speed_at_rollover)
    at = run(formulas.turning, speed=greatest)
    assert zero(at.planned_turning - letter("acceleration_limit"))


def test_a_swung_log_comes_out_by_the_side_of_its_pendulum():
    reach, end, low, drop, lean = letters("hook_reach far_end lowest_height hanging_drop lean")
    out = drop * sp.sin(lean)
    assert zero(run(formulas.farthest_point).farthest_point - reach - end - out)
    assert zero(run(formulas.exclusion_radius).exclusion_radius - end - out - low)


def test_wind_does_by_its_shape_the_work_that_the_air_through_its_area_could():
    """Work of the force in a second, and the energy of the motion of the air that comes in it."""
    density, speed, shape = letters("air_density wind_speed shape_factor")
    pressure, area, force = (line.expression for line in lines("wind_force"))
    comes, (long, wide) = density * area * speed, letters("wind_length wind_breadth")
    assert zero(area - long * wide, pressure * area * speed - comes * speed**2 / 2)
    worked = force.subs({letter("wind_pressure"): pressure, letter("wind_area"): area})
    assert zero(worked * speed - shape * comes * speed**2 / 2)


def test_a_weighed_machine_is_in_balance_and_stands_where_it_was_raised_to():
    base, front, rear, raised, whole, level, weighed = letters(
        "wheelbase front_radius rear_radius raise_height whole_mass front_level front_raised"
    )
    ahead, up = letters("cog_ahead cog_up")
    found, weighs = run(formulas.cog_by_weighing), run(formulas.weighing_of_cog)
    for each in (found, weighs):
        step = front - rear
        stands = base * sp.sin(each.pitch) + step * sp.cos(each.pitch)
        assert zero(stands - step - raised)
    assert zero(found.cog_ahead * whole - base * level, weighs.front_level * base - whole * ahead)
    theta, step = letters("pitch axle_step")
    for name, ahead_of, up_of, on_front in (
        ("cog_by_weighing", ahead, lines("cog_by_weighing")[-1].expression, weighed),
        ("weighing_of_cog", ahead, up, lines("weighing_of_cog")[-1].expression),
    ):
        front_ahead, front_up = letter("front_ahead"), base * sp.sin(theta) + step * sp.cos(theta)
        # The line between the axles, turned, is as long as it was.
        square = lines(name)[-2].expression ** 2 + front_up**2
        assert zero(square - base**2 - step**2)
        arm = ahead_of * sp.cos(theta) - (up_of - rear) * sp.sin(theta)
        assert zero(on_front * front_ahead - whole * arm)


def test_the_chassis_and_the_rest_have_the_moment_of_the_whole():
    whole, up, rest, moment = letters("whole_mass cog_up rest_mass rest_moment")
    (chassis,) = run(formulas.chassis_by_weighing)
    assert zero((whole - rest) * chassis + moment - whole * up)
