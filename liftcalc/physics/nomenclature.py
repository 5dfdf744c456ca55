"""The words of the formulas: the word in code, its letter on paper, its unit and what it means.

One line a word. ``docs/nomenclature.md`` is written from this table: ``make generated``.
"""

from __future__ import annotations

from typing import NamedTuple


class Word(NamedTuple):
    """A quantity: ``letter`` is LaTeX, ``unit`` SI as printed and ``"-"`` for a pure number."""

    name: str
    letter: str
    unit: str
    meaning: str


_TABLE = r"""
butt_diameter           d_0          m       diameter at the butt
middle_diameter         d_m          m       diameter at mid length
top_diameter            d_1          m       diameter at the top end
log_length              L            m       length of the log
butt_area               A_0          m²      section at the butt
middle_area             A_m          m²      section at mid length
top_area                A_1          m²      section at the top end
volume                  V            m³      volume of the log
balance_from_butt       x_G          m       balance point of the log, from butt
trunk_mass              m_t          kg      mass of the log without its root plate
root_plate_mass         m_p          kg      mass of the root plate
balance_with_plate      x_P          m       balance point of the log and its root plate, from butt
log_mass                m_L          kg      mass of the log
balance_from_ground_end x_E          m       balance point from the end that stays on the ground
hook_from_ground_end    h_E          m       hook along the log from the end that stays on the ground
breakout_factor         k_e          -       multiplier for a bedded or stuck log, 1 when it lies free
hook_share              h_s          -       share of the log's weight on the hook
hook_mass               m_h          kg      mass whose weight the hook carries
basic_gravity           G_b          -       basic specific gravity of the wood: dry mass over green volume, water being 1
cell_wall_gravity       G_0          -       specific gravity of wood substance
moisture_ceiling        M_{\max}     -       most moisture the wood can hold
saturated_density       \rho_s       kg/m³   density with every pore full
moisture                M            -       water over dry mass of the wood
fibre_saturation        M_f          -       moisture below which wood shrinks
shrinkage               S            -       volume lost by shrinking over green volume
shrunken_gravity        G_M          -       dry mass over the volume at the present moisture, water being 1
open_density            \rho_M       kg/m³   density by moisture, no ceiling
wood_density            \rho_w       kg/m³   density of the wood
gravity_spread          \sigma_G     -       one sigma of the basic gravity
upper_point             z            -       95 % point of the normal distribution
upper_gravity           G_b^+        -       upper 95 % value of the basic gravity
densest_wood_density    \rho_s^+     kg/m³   saturated density of the upper basic gravity
bark_share              b            -       volume of bark over volume of wood
bark_gravity            G_k          -       basic specific gravity of the bark
bark_moisture           M_k          -       water over dry mass of the bark
bark_density            \rho_k       kg/m³   density of the bark
bark_mass               m_k          kg      mass of bark not in the measured volume
blend_density           \rho_b       kg/m³   wood and bark, over all volume
over_bark_density       \rho_o       kg/m³   density that goes with a volume over bark
diameter_error          \delta_d     m       one sigma of a taped diameter
shape_spread            \sigma_f     -       one sigma of the volume rule
equivalent_diameter     d_e          m       diameter of the cylinder of the same length and volume
volume_spread           \sigma_V     -       one sigma of the volume
likely_density          \rho         kg/m³   likely density of what was taped
added_share             e            -       extras stated as a share of the log's mass
added_mass              m_e          kg      extras stated as a mass
stem_mass               m_s          kg      wood and bark, without extras
likely_mass             m            kg      likely mass of the log
density_spread          \sigma_\rho  -       one sigma of the density
guess_spread            \sigma_g     -       one sigma of bark and extras
mass_spread             \sigma_m     -       one sigma of volume × density
low_guess               q^-          -       factor on bark and extras, low
low_stem_mass           m_s^-        kg      low stem mass
scale_reading           m_r          kg      mass that a scale shows
scale_tolerance         \delta_m     kg      how far that may be out
low_mass                m^-          kg      low mass of the log
high_density            \rho_h       kg/m³   higher density that a source gives for the species, or the likely one
densest_density         \rho_c       kg/m³   density that what was taped cannot pass
upper_volume            V^+          m³      upper 95 % value of the volume
high_guess              q^+          -       factor on bark and extras, high
high_stem_mass          m_s^+        kg      upper stem mass
planning_mass           m^+          kg      mass to plan the lift on
slope                   s            rad     slope of the ground
heading                 h            rad     uphill direction in the machine frame: 0 nose uphill, +90° left side uphill
acceleration_x          a_x          m/s²    own acceleration, forward
acceleration_y          a_y          m/s²    own acceleration, left
acceleration_z          a_z          m/s²    own acceleration, up
gravity_x               g_x          m/s²    effective gravity, forward
gravity_y               g_y          m/s²    effective gravity, left
gravity_z               g_z          m/s²    effective gravity, up
air_density             \rho_a       kg/m³   density of the air
wind_speed              v_w          m/s     speed of the wind
shape_factor            c_w          -       force over pressure times area, by the shape that stands in the wind
wind_length             L_a          m       length of what faces the wind
wind_breadth            B_a          m       breadth of what faces the wind, square to its length
wind_area               A_w          m²      area that faces the wind
wind_pressure           q            Pa      dynamic pressure of the wind
wind_force              F_w          N       force of the wind
holding_moment          M_0          N·m     moment of the machine about the tipping line, positive when it holds down
load_unit_moment        k_L          N·m/kg  moment about the tipping line of one kilogram of load
tipping_load            m_T          kg      load at which the machine just tips
target_u                u            m       target, outward of the foot pin
target_w                w            m       target, above the foot pin
first_length            L_1          m       length of the first link
second_length           L_2          m       length of the second link
span_square             D^2          m²      square of that distance
span                    D            m       distance from the foot pin to the target
lengths_square          S            m²      squares of both links, together
lengths_product         T            m²      twice the product of both links
elbow_cosine            c_e          -       cosine between the links
elbow_sine              s_e          -       sine between the links
far_along               a            m       far end of the folded arm, along its first link
far_across              b            m       far end of the folded arm, square to its first link
first_cosine            c_1          -       cosine of the first link above horizontal
first_sine              s_1          -       sine of the first link above horizontal
second_cosine           c_2          -       cosine of the second link above horizontal
second_sine             s_2          -       sine of the second link above horizontal
capacity                m_C          kg      load at which a criterion is reached
share                   f            -       share of the capacity that may be used
allowed                 m_A          kg      allowed load on the lift point
rigging_mass            m_R          kg      chain, sling and hook below the point
tolerance_share         f_t          -       share of the capacity that tolerances of figures leave
usable_capacity         m_U          kg      share of the capacity that may be used
load_factor             \varphi      -       pull of what hangs over its weight, jolts counted
left_for_log            m_N          kg      allowed load less the rigging
heaviest_log            m_H          kg      heaviest log the criterion allows
utilisation             u            -       share of the allowed load used
bore                    D_b          m       bore of the ram
rod                     D_r          m       diameter of the rod
count                   n            -       number of equal rams side by side
pressure                p            Pa      pressure at the ram
efficiency              \eta         -       share of the pressure that lifts
bore_area               A_b          m²      full area of the piston
ring_area               A_r          m²      piston less rod
push                    F_+          N       greatest push of the rams
pull                    F_-          N       greatest pull of the rams
pivot_u                 c_u          m       joint, outward
pivot_w                 c_w          m       joint, up
base_pin_u              b_u          m       pin of the ram on its base, outward
base_pin_w              b_w          m       pin of the ram on its base, up
rod_pin_u               t_u          m       pin of the rod, outward
rod_pin_w               t_w          m       pin of the rod, up
ram_u                   \Delta_u     m       from the ram's base pin to its rod pin, outward
ram_w                   \Delta_w     m       from the ram's base pin to its rod pin, up
ram_length              \ell         m       ram from pin to pin
moment_arm              r            m       moment arm of the ram, dℓ/dθ, positive when it lengthens as the link turns up
base_from_joint_u       b_u          m       pin of the ram on its base, from the joint, outward
base_from_joint_w       b_w          m       pin of the ram on its base, from the joint, up
rod_on_link_u           t_u          m       pin of the rod, from the joint, in the frame of its link, outward
rod_on_link_w           t_w          m       pin of the rod, from the joint, in the frame of its link, up
turn_cosine             c            -       cosine of the turn of the link
turn_sine               s            -       sine of the turn of the link
radii_square            K            m²      squares of both pins' distance from joint
pins_inner              A            m²      inner product of the two pins
pins_outer              B            m²      outer product of the two pins
first_u                 p_u          m       centre of the first circle, outward
first_w                 p_w          m       centre of the first circle, up
first_radius            R_1          m       radius of the first circle
second_u                q_u          m       centre of the second circle, outward
second_w                q_w          m       centre of the second circle, up
second_radius           R_2          m       radius of the second circle
side                    \sigma       -       +1 for the crossing to the left of the line between the centres, −1 right of it
between                 D            m       distance between the centres
along                   a            m       first centre to the common chord
off                     f            m       half the common chord
crossing_u              x_u          m       crossing of circles, outward
crossing_w              x_w          m       crossing of circles, up
crank_pivot_u           a_u          m       pivot of the rocker, outward
crank_pivot_w           a_w          m       pivot of the rocker, up
crank_pin_u             j_u          m       pin of the rocker and the link, outward
crank_pin_w             j_w          m       pin of the rocker and the link, up
link_pin_u              k_u          m       pin of the link on the attachment, outward
link_pin_w              k_w          m       pin of the link on the attachment, up
velocity_ratio          i            -       turn of the rocker for one turn of the attachment
links_moment            M_\ell       N·m     moment of the links' own weight about the joint, positive turning up
joint_unit_moment       k_L          N·m/kg  moment about the joint of one kilogram of load, positive turning up
pushing_moment          M_P          N·m     moment of a full push
pulling_moment          M_Q          N·m     moment of a full pull
upward_moment           M_+          N·m     greatest moment turning up
downward_moment         M_-          N·m     greatest moment turning down
upward_left             M_{+}'       N·m     upward moment left for a load
downward_left           M_{-}'       N·m     downward moment left for a load
joint_load              m_J          kg      load that the joint can carry
pressing_moment         M_\ell       N·m     moment of all weights about the line across from a support
support_lever           d_\ell       m       moment about that line of a unit force up at the support
support_force           N_i          N       greatest force of the ground on a support
force_x                 F_x          N       force of all weights, forward
force_y                 F_y          N       force of all weights, left
force_z                 F_z          N       force of all weights, up
moment_x                M_x          N·m     moment of all weights about the origin, round the axis forward
moment_y                M_y          N·m     moment of all weights about the origin, round the axis left
moment_z                M_z          N·m     moment of all weights about the origin, round the axis up
back_x                  x_b          m       the two back supports, forward
left_y                  y_l          m       left back support, left
right_y                 y_r          m       right back support, left
pin_x                   x_p          m       pin of the axle, forward
pin_height              h_p          m       pin of the axle above the ground
pin_base                D_p          m       back supports to the pin
pin_up                  N_p          N       force of the axle on its pin, up
back_up                 N_b          N       force on both back supports, up
turning_moment          T_b          N·m     moment of sideways forces about the back supports, that turns the machine in plan
roll_factor             c_b          -       how much the force along the machine stiffens the roll over the pin
back_roll               B_b          N·m     moment of the back supports' forces up about the middle
left_up                 N_l          N       force on the left back support, up
right_up                N_r          N       force on the right back support, up
pin_left                Q_p          N       force of the axle on its pin, left
back_left               Q_b          N       force on both back supports, left
front_track             t_f          m       track of the front axle
left_tyre               N_{fl}       N       force on the left tyre of an oscillating axle, up
right_tyre              N_{fr}       N       force on the right tyre of an oscillating axle, up
gear_size               d_g          m       diameter of a chain's bar or of a rope
size_rule               c_g          kg/mm²  load for a square millimetre of size²
single_leg              m_1          kg      working load limit of one straight leg
sling_tag               m_{tag}      kg      working load limit on the tag of a sling of two legs
uniform_factor          f_u          -       straight legs that two count for by the uniform rating
mode_factor             f_m          -       share of a straight leg that is left
sling_capacity          m_S          kg      load that the sling holds as slung
sling_length            \ell_s       m       length of the sling or of one leg
largest_diameter        D_L          m       largest diameter of the log
basket_half_angle       \beta_b      rad     half the angle between the two parts of a basket, from above
basket_factor           f_b          -       straight legs that a basket is worth
bend_factor             f_r          -       share of a rope that a bend round a thin log leaves
basket_capacity         m_B          kg      load that a basket holds
leg_spread              w_s          m       two legs apart along the log
balance_miss            e_m          m       how far the balance point lies from where it was aimed
larger_share            s_1          -       share of the leg that carries more
included_angle          \theta_s     rad     angle between two legs
leg_factor              f_\ell       -       straight legs that two legs are worth
free_leg                \ell_f       m       what a choke leaves of a leg's length
legs_worth              f_w          -       straight legs that two legs are worth with their shares
two_leg_capacity        m_{2}        kg      load that two legs hold
part_limit              m_{h}        kg      working load limit of a hook or shackle
part_capacity           m_{H}        kg      load that may hang on it
hung_mass               m_W          kg      mass that hangs on the legs
leg_share               s_\ell       -       share of the weight on one leg
leg_lean                \alpha_\ell  rad     leg off the plumb line
leg_tension             T_\ell       kg      tension of a leg, as the mass that it would hold straight
at_one                  x_1          m       first carrier, along the log from its butt
at_two                  x_2          m       second carrier, along the log from its butt
mass_on_one             m_{c1}       kg      mass that the first carrier holds
mass_on_two             m_{c2}       kg      mass that the second carrier holds
hang_depth              h_G          m       balance point below the point about which the log turns
hang_angle              \theta_h     rad     log off the level as it hangs
drag_friction           \mu_d        -       friction of the log on the ground
rise_angle              \theta_r     rad     log above the ground as it trails
resting_share           n_s          -       weight on the ground square to it, share of the log's weight
up_share                v_s          -       pull on the hook square to the ground, share of the log's weight
along_share             p_s          -       pull on the hook along the ground, share of the log's weight
pull_share              f_p          -       pull on the hook, share of the log's weight
pull_lean               \lambda_p    rad     pull on the hook off the square to the ground
jaw_force               F_j          N       force of each jaw on the log
jaw_friction            \mu_j        -       friction of jaw and log
grip_hold               R_g          N       most that friction can hold
grip_safety             \nu_g        -       hold that is asked, over the need
gripped_share           s_g          -       share of the weight that only friction holds
held_load               m_g          kg      log that the grip may hold
steady_acceleration     a            m/s²    acceleration of the point that a load hangs from, square to plumb
lean                    \lambda      rad     lean of a hanging load from plumb
peak_swing              \lambda_p    rad     farthest lean from plumb, swinging from rest
swing                   \theta_w     rad     swing of a hanging load to either side
swing_pull              f_s          -       pull of a swinging load below its hook, over its weight
speed                   v            m/s     speed of travel
turn_radius             R            m       radius of the turn, at the middle of the rear axle
rollover_share          \kappa       -       real rollover threshold over that of a rigid machine
turn_rate               \dot\psi     rad/s   rate of turn
turning_acceleration    a_R          m/s²    acceleration toward the inside of the turn
planned_turning         a_R^+        m/s²    acceleration that stands for the turn of a rigid machine
ahead                   x            m       point of the machine, ahead of the rear axle
rearward_in_turn        a_F          m/s²    acceleration of that point toward the rear axle while turning
acceleration_limit      a_{\max}     m/s²    acceleration to the side at which a rigid machine reaches its limit
greatest_speed          v_{\max}     m/s     speed at which it gets there
hook_reach              r_h          m       hook from the slew axis, or ahead of the front axle
slew_speed              \omega       rad/s   rate of slewing
slew_stop               t_s          s       time in which slewing starts or stops
swings_added            n_s          -       1 when the load hangs quiet before slewing stops, 2 when it still swings from the start
slewing_acceleration    a_t          m/s²    acceleration of the hook along its circle
start_stop_swing        \lambda_t    rad     swing when slewing starts or stops
outward_lean            \lambda_r    rad     lean away from the slew axis while slewing
slewing_swing           \lambda_s    rad     lean to plan slewing on
shear_strength          c_u          Pa      strength of soil that holds its water, against shearing
friction_angle          \varphi      rad     angle of friction of sand or gravel
soil_weight             \gamma       N/m³    weight of the soil, in water less what it displaces
pad_width               B_p          m       lesser side of what bears on the ground
pad_length              L_p          m       greater side of what bears on the ground
level_share             t_p          -       force along the ground over the force on it
bearing_number          N_c          -       pressure at which it gives way, over the shear strength
surcharge_number        N_q          -       bearing number of soil beside the pad
weight_number           N_\gamma     -       bearing number of the soil's own weight
pad_shape               s_\gamma     -       factor for the shape of the pad
level_factor            i_\gamma     -       factor for a force that leans
ultimate_pressure       q_u          Pa      pressure at which the ground gives way
bearing_factor          F_b          -       factor on the pressure at which the ground gives way
pad_pressure            q            Pa      pressure that the ground is allowed to carry
proved_force            F_t          N       force under which a pad stood and did not sink
proof_factor            \nu_t        -       factor on a proved force
force_by_proof          F_q          N       force that proof allows under a pad
cone_index              C_i          Pa      push of a small cone into the ground, over its area
tyre_width              b_t          m       width of the tyre where it bears
tyre_diameter           d_t          m       diameter of the tyre
contact_length          l_t          m       length of the tyre that bears on hard ground
rut_depth               z_t          m       rut that the tyre may make
tyre_deflection         \delta_t     m       how far the tyre is pressed flat
mobility_number         N_m          -       strength of the ground over what the tyre asks of it
tyre_load               F_w          N       force on the ground under which the tyre makes that rut
sinkage                 z_s          m       how deep the tyres sink
grade                   i_g          -       rise over run of the way uphill
travelling_mass         m_v          kg      machine and all that it carries
resistance_share        c_R          -       resistance to travel over the weight
travel_resistance       F_R          N       resistance to travel
far_end                 b_L          m       far end of the log from where it is held
hanging_drop            h_d          m       middle of the log below the lift point
swung_out               w_s          m       how far the log swings out sideways
farthest_point          r_f          m       farthest that any of the log comes, from where reach is measured
lowest_height           z_L          m       lowest point of the log above the ground
exclusion_radius        r_x          m       radius of the circle, round the point below the hook, that people stay out of
wheelbase               L_w          m       rear axle to front axle, level
front_radius            r_f          m       front axle above the ground, level
rear_radius             r_r          m       rear axle above the ground, level
raise_height            H            m       front tyres raised above the rear tyres; negative when the rear is raised
whole_mass              W            kg      mass of the whole machine
front_level             R_{f0}       kg      mass on the front axle, level
front_raised            R_{f1}       kg      mass on the front axle with one axle raised
cog_ahead               x_c          m       centre of gravity of the whole machine, ahead of the rear axle
axle_step               d_r          m       front axle above the rear axle, level
pitch                   \theta       rad     how far the machine is pitched nose up by raising an axle
front_ahead             x_f          m       front axle ahead of the rear axle along the ground, pitched
cog_up                  z_c          m       centre of gravity of the whole machine above the ground, level
rest_mass               m_o          kg      all lumps of the machine but the chassis
rest_moment             S_o          kg·m    sum over those lumps of mass times height
chassis_height          z_b          m       centre of gravity of the chassis above the ground
"""
WORDS = {
    word.name: word for word in (Word(*row.split(None, 3)) for row in _TABLE.split("\n") if row)
}
