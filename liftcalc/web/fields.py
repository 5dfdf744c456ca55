"""The inputs of the page: what each is called, and how to measure it.

A field is named as the command line's option is, so that a fault finds its field again.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """An input: its name in ``LiftRequest``, its label, and how to measure it."""

    name: str
    label: str
    how: str

    @property
    def option(self) -> str:
        """The name that echoes and faults use."""
        return self.name.replace("_", "-")


def _fields(*rows: tuple[str, str, str]) -> dict[str, Field]:
    return {name: Field(name=name, label=label, how=how) for name, label, how in rows}


FIELDS = _fields(
    ("machine", "Machine", "The class nearest to yours, or the path of your own machine file."),
    ("end", "Which end lifts", "The back end on its stabilisers, the front end on the wheels."),
    ("attachment", "Attachment", "What is fitted to that end."),
    ("lift_point", "Lift point", "Where on it the load is taken. Use rated points only."),
    ("species", "Species", "Choose or type a common or botanical name. Not sure? Unknown hardwood "
     "or unknown softwood."),
    ("length", "Length", "Butt to top along the log, such as 4.2 m or 13 ft 6 in."),
    ("butt", "Butt diameter", "Thick end, or its girth: girth 173 cm. Above any flare."),
    ("mid", "Mid diameter", "Half way along. Alone it is enough."),
    ("top", "Top diameter", "Thin end."),
    ("bark", "Taken", "How the diameters were taken."),
    ("moisture", "Moisture", "As felled is fresh; from the water is soaked. Or water over dry "
     "mass, such as 85 %."),
    ("mud", "Mud", "A mass or a share of the log: 40 kg or 5 %."),
    ("ice", "Ice and snow", "A mass or a share of the log."),
    ("root_plate", "Root plate", "A mass or a share of the log, when it is still on."),
    ("limbs", "Limbs and crown", "A mass or a share of the log, when they are still on."),
    ("reach", "Reach", ""),
    ("height", "Height of the lift point", "Ground to the point where the chain hangs, at its "
     "highest in this lift."),
    ("slew", "Slew", "Angle from straight back; to the machine’s left is positive: 40 deg."),
    ("sideshift", "Sideshift", "Slew axis off the middle; to the machine’s left is positive."),
    ("tilt", "Tilt of the attachment", "Above level is rolled back. Empty: as usual for it."),
    ("curl", "Curl of the bucket", "Share of the bucket ram that is out: 80 %. Empty: as usual."),
    ("stance", "Standing on", "What carries the machine during the lift."),
    ("travelling", "Carry the log on the move", "Only at the front end, on the wheels."),
    ("slope", "Ground slope", "Steepest slope under the machine: 3 deg, 5 % or 1 in 20."),
    ("uphill", "Which way is uphill", "From the seat: 0 deg nose uphill, 90 deg left side, 180 deg "
     "tail, -90 deg right side."),
    ("sling", "How it is slung", "One choked sling unless you say otherwise."),
    ("sling_length", "Length of sling", "Of the sling, or of each leg, eye to eye."),
    ("leg_spread", "Spread of two legs", "Along the log, between the two."),
    ("slung_at", "Slung at", "From the butt. Empty: at the balance point, a little missed."),
    ("rigging_mass", "Mass of rigging", "All that hangs between lift point and log."),
    ("sling_kind", "Kind of sling or chain", "Not sure of a chain? Take grade 30."),
    ("sling_size", "Thickness of chain or rope", "The bar of one link, or the rope, by calliper."),
    ("sling_wll", "Load on the sling’s tag", "For one straight leg. It comes before the size."),
    ("hook_wll", "Load on the hook", "It stands on the hook’s body: 1120 kg or 2 t."),
    ("shackle_wll", "Load on the shackle", "It stands on its bow. No shackle: none."),
    ("hitch_wll", "Load of the machine’s own eye", "The eye or hitch that the hook hangs in."),
    ("lifted", "What is lifted", "All of the log, or only a part while the rest lies or trails."),
    ("ground_end", "End on the ground", "The end that stays down. Empty: the top, which pulls "
     "harder."),
    ("hook_at", "Hook along the log", "From the end on the ground to the chain. Empty: 0.3 m short "
     "of the other end."),
    ("breakout", "First pull, times the weight", "1 lies free; 2 or 3 bedded, mired or frozen."),
    ("drag_friction", "Drag of the log on the ground", "Pull over weight; empty: 1, as over stumps "
     "and ruts."),
    ("surface", "What the jaw holds", "The log’s skin where the jaw closes. In doubt: wet."),
    ("swing", "Swing", "How far the log may swing: 5 deg. Empty: it hangs still."),
    ("off_centre", "Off centre", "How far to a side the balance point of a carried log may lie."),
    ("plate", "Plate or chart value", "For this end, reach and height, from the machine itself. It "
     "always comes first."),
    ("pressure", "Gauge pressure", "Measured at the relief valve: 200 bar. Empty: the file’s."),
    ("other_attachment", "At the other end", "What hangs at the end that does not lift."),
    ("accelerate_forward", "Forward acceleration", "Braking is negative: -1.5 m/s2."),
    ("accelerate_left", "Leftward acceleration", "A left turn is positive: 1 m/s2."),
    ("pick_height", "Underside of the log at pick-up", "Above the ground the machine stands on."),
    ("pick_reach", "Reach of the back end at pick-up", "From the slew axis to the log’s "
     "balance point."),
    ("pick_slew", "Slew of the back end at pick-up", "From straight back; left is positive."),
    ("set_height", "Underside of the log at set-down", "Bunk floor or stack, above the ground."),
    ("set_reach", "Reach of the back end at set-down", "Empty: as at pick-up."),
    ("set_slew", "Slew of the back end at set-down", "Empty: as at pick-up."),
    ("front_attachment", "At the front end", "What would take the log there."),
    ("back_attachment", "At the back end", "What would take the log there."),
    ("front_lift_point", "Its lift point", "Where on it the load is taken."),
    ("back_lift_point", "Its lift point", "Where on it the load is taken."),
    ("front_tilt", "Tilt of the front attachment", "Above level is rolled back. Empty: as usual."),
    ("back_curl", "Curl of the back bucket", "Share of its ram that is out: 80 %."),
    ("front_stance", "Front end lifts from", "What carries the machine then."),
    ("back_stance", "Back end lifts from", "What carries the machine then."),
    ("back_open_width", "Back jaw open: its width", "What it takes up across the bunk."),
    ("back_open_height", "Back jaw open: its height", "What it takes up upward when open."),
    ("front_plate", "Plate value, front end", "From the machine itself. It always comes first."),
    ("back_plate", "Plate value, back end", "From the machine itself. It always comes first."),
    ("bunk_width", "Clear width of the bunk", "Inside the trailer’s stakes, if set down in one."),
    ("bunk_height", "Clear height inside it", "In which a jaw has to open."),
    ("front_open_width", "Front jaw open: its width", "What it takes up across the bunk."),
    ("front_open_height", "Front jaw open: its height", "What it takes up upward when open."),
    ("ground", "What it stands on", "Worst ground under any pad or wheel. In doubt: unknown."),
    ("levelled", "Levelled on its stabilisers", "Only if a level laid on the frame says so."),
    ("mat", "Mat under each pad", "Side of a square mat or stout plank crib: 0.6 m."),
    ("friction", "Grip on the ground", "Pull over weight before it slides: 0.3. On ice or leaves "
     "0.1 or less."),
    ("sinkage", "Depth of the ruts", "How deep the tyres sink on the way: 5 cm."),
    ("speed", "Speed on the way", "Fastest with the log: a walk is 5 km/h."),
    ("turn_radius", "Tightest turn", "Radius of the track that the middle of the rear axle makes."),
    ("braking", "Hardest braking", "From 5 km/h to nothing in 1 s is 1.4 m/s2."),
    ("slew_speed", "Slewing speed", "Time a quarter turn: 90 deg in 3 s is 30 deg/s."),
    ("slew_stop", "Slewing stops within", "From letting the lever go to standing still: 1 s."),
    ("wires_said", "Overhead wires", "Look up all round, along the way as well."),
    ("wires", "Distance to the wires", "Paced on the ground from slew axis (back) or front axle "
     "to below the nearest wire."),
    ("rules", "Rules for wires", "Whose distances to keep."),
    ("wires_on", "What carries the wires", "Not sure: leave it; the greater distance is kept."),
    ("wires_voltage", "Voltage of the wires", "Ask the owner of the line. Empty: the most is "
     "taken."),
    ("edge_said", "Ditch or bank edge", "Any drop beside the machine."),
    ("edge", "Distance to the edge", "From the nearest pad or tyre."),
    ("edge_depth", "Depth there", "From its edge to its bottom. Cannot see it? The deepest it can "
     "be."),
    ("people_said", "People about", "Anybody outside the cab, also who steers the log."),
    ("people", "Distance to the nearest", "On the ground, from below the hook."),
    ("empty_seat", "Nobody in the seat", "The driver’s weight helps some lifts and hurts others."),
)  # fmt: skip

REACH_FROM = {
    "back": "Level distance from the slew axis (the kingpost) to the lift point.",
    "front": "Ahead of the front axle. Empty: where the arms put it at that height.",
}
