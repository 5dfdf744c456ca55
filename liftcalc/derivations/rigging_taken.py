"""Logs drawn over the ground, and the grip of jaws."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.mechanics import SLOPE, STANDARD_GRAVITY
from liftcalc.derivations.timber_mass import PLANNING
from liftcalc.derivations.timber_shape import BREAKOUT, HOOK_SHARE

DRAG = Word(
    name="drag_friction", letter=r"\mu_d", unit="-", meaning="friction of the log on the ground"
)
RISE = Word(
    name="rise_angle", letter=r"\theta_r", unit="rad", meaning="log above the ground as it trails"
)
UP = Word(
    name="up_share", letter="v_s", unit="-",
    meaning="pull on the hook square to the ground, share of the log's weight",
)  # fmt: skip
REST = Word(
    name="resting_share", letter="n_s", unit="-",
    meaning="weight on the ground square to it, share of the log's weight",
)  # fmt: skip
ALONG = Word(
    name="along_share", letter="p_s", unit="-",
    meaning="pull on the hook along the ground, share of the log's weight",
)  # fmt: skip
_u, _mu, _s, _th = HOOK_SHARE.symbol, DRAG.symbol, SLOPE.symbol, RISE.symbol
TRAILED = Formula(
    name="trailed_log",
    title="Pull on the hook of a log drawn uphill over the ground",
    given=(HOOK_SHARE, DRAG, SLOPE, RISE),
    steps=(
        Step(
            word=REST,
            expression=(1 - _u) * (sp.cos(_s) - sp.tan(_th) * sp.sin(_s)) / (1 + _mu * sp.tan(_th)),
            why="moments about the hook; the drag lifts what lies below a raised hook",
        ),
        Step(
            word=UP,
            expression=sp.cos(_s) - REST.symbol,
            why="the hook carries what the ground does not",
        ),
        Step(
            word=ALONG,
            expression=_mu * REST.symbol + sp.sin(_s),
            why="friction of what rests, and what the slope asks",
        ),
    ),
    source="statics of a body on two points; Coulomb friction",
    error="exact for a thin log at a steady speed; ground that is ploughed up adds to the friction",
    # Moments about the end on the ground, of the hook's two forces and of the weight.
    proofs=(
        UP.symbol * sp.cos(_th)
        - ALONG.symbol * sp.sin(_th)
        - _u * (sp.cos(_s) * sp.cos(_th) - sp.sin(_s) * sp.sin(_th)),
    ),
)
PULLED = Word(
    name="pull_share", letter="f_p", unit="-", meaning="pull on the hook, share of the log's weight"
)
PULL_LEAN = Word(
    name="pull_lean", letter=r"\lambda_p", unit="rad",
    meaning="pull on the hook off the square to the ground",
)  # fmt: skip
HOOK_PULL = Formula(
    name="hook_pull",
    title="Size and lean of the pull on the hook",
    given=(UP, ALONG, BREAKOUT),
    steps=(
        Step(
            word=PULLED,
            expression=BREAKOUT.symbol * sp.sqrt(UP.symbol**2 + ALONG.symbol**2),
            why="both parts together, times what frees the log from its bed",
        ),
        Step(word=PULL_LEAN, expression=sp.atan2(ALONG.symbol, UP.symbol), why="its direction"),
    ),
    source="statics; no breakout factor is standard",
    error="exact for the parts given",
)

JAW = Word(name="jaw_force", letter="F_j", unit="N", meaning="force of each jaw on the log")
JAW_FRICTION = Word(
    name="jaw_friction", letter=r"\mu_j", unit="-", meaning="friction of jaw and log"
)
SAFETY = Word(
    name="grip_safety", letter=r"\nu_g", unit="-", meaning="hold that is asked, over the need"
)
GRIPPED = Word(
    name="gripped_share",
    letter="s_g",
    unit="-",
    meaning="share of the weight that only friction holds",
)
HOLD = Word(name="grip_hold", letter="R_g", unit="N", meaning="most that friction can hold")
HELD = Word(name="held_load", letter="m_g", unit="kg", meaning="log that the grip may hold")
HOLD_STEP = Step(
    word=HOLD,
    expression=2 * JAW_FRICTION.symbol * JAW.symbol,
    why="two sides press, each holds its force times the friction",
)
JAW_HOLD = Formula(
    name="jaw_hold",
    title="What friction between two jaws holds",
    given=(JAW, JAW_FRICTION),
    steps=(HOLD_STEP,),
    source="Coulomb friction",
    error="no edge or tooth is credited; overstates where jaws press on a knot or on loose bark",
)
JAW_LOAD = Formula(
    name="jaw_load",
    title="Log that the grip of two jaws may hold",
    given=(JAW, JAW_FRICTION, SAFETY, GRIPPED),
    steps=(
        HOLD_STEP,
        Step(
            word=HELD,
            expression=HOLD.symbol / (SAFETY.symbol * STANDARD_GRAVITY * GRIPPED.symbol),
            why="a reserve for what shakes, and only the weight that lies on the grip",
        ),
    ),
    source="Coulomb friction; standard gravity, CGPM 1901",
    error="no edge or tooth is credited; overstates where jaws press on a knot or on loose bark",
    proofs=(
        SAFETY.symbol * HELD.symbol * STANDARD_GRAVITY * GRIPPED.symbol
        - 2 * JAW_FRICTION.symbol * JAW.symbol,
    ),
)
RESERVE = Word(
    name="grip_reserve", letter="q_g", unit="-", meaning="hold of the grip over what it needs"
)
NEEDED = Word(name="grip_needed", letter="N_g", unit="N", meaning="weight that friction must hold")
GRIP_RESERVE = Formula(
    name="grip_reserve",
    title="Reserve of a grip",
    given=(HOLD, PLANNING, GRIPPED),
    steps=(
        Step(
            word=NEEDED,
            expression=PLANNING.symbol * STANDARD_GRAVITY * GRIPPED.symbol,
            why="the weight that lies on the grip",
        ),
        Step(word=RESERVE, expression=HOLD.symbol / NEEDED.symbol, why="hold over need"),
    ),
    source="definition",
    error="exact; infinite where nothing lies on the grip",
)

FORMULAS = (TRAILED, HOOK_PULL, JAW_HOLD, JAW_LOAD, GRIP_RESERVE)
