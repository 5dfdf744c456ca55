"""What is said of a lift and of a map of lifts, by code."""

from __future__ import annotations

from liftcalc.factors import NOT_CHECKED

VERDICTS = {
    "it_holds": "it holds",
    "it_fails": "it does not hold",
    "it_is_open": "it cannot be said yet",
    "for_practice": "For practice, on an invented machine: {said}",
    "fact_pays": "Tell of the machine: {fact}; worth about {worth} here",
    "known_range": "By what is known of this machine it may be allowed between {low} and {high} "
    "here",
    "carefully": "at the careful end of what was not said: {why}",
    "even_hoped": "even at the favourable end of what was not said: {why}",
    "no": "No: {why}",
    "tell": "tell {what}",
    "measure_it": "tell or measure {label} ({option}): worth up to {worth}",
    "better_ground": "larger plates under the pads, firmer ground, or ground that the machine "
    "itself has proved: worth up to {worth}",
    "prove_it_here": "it cannot be said what this ground carries: let the machine itself prove it "
    "(liftcalc ground proof), or go where it is firm; worth up to {worth}",
    "measure_machine": "measure what the machine's file assumes, leaves out or gives a tolerance: "
    "worth up to {worth}",
    "let_it_hang": "let the log hang quiet before the slewing stops, or slew more slowly and tell "
    "it (slew-speed): worth up to {worth}",
    "firmer_ground": "firmer ground under the wheels, ground that they have proved (liftcalc "
    "ground proof), or the back end on plates: worth up to {worth}",
    "weigh_it": "weigh the log, or tape its middle as well: worth up to {worth}",
    "try_balance": "lift it an inch, sling it anew till it hangs level, and tell (hangs-level): "
    "worth up to {worth}",
    "lay_a_level": "lay a level on the frame and tell the slope: worth up to {worth}",
    "within": "Within the model's limits{told}",
    "only_just": "Only just: within the model's limits{told}, with little to spare",
    "close_to": "Only just: within the model's limits{told}, but {name} {room}",
    "inside": "within the model’s limits{told}, inside this line",
    "along": "within the model’s limits{told}, on the heavy line",
    "nothing_allowed": "No: nothing is allowed here",
    "told": "",
    "as_told": ", as far as it was told",
    "too_heavy": "too heavy here",
    "still_in_ground": "No: the log would still be in the ground",
    "no_unsaid": "No: not said: {what:; }",
    "rigging_too_heavy": "the rigging alone is too heavy here",
    "tips_empty": "the machine tips here with no load at all",
    "sinks_empty": "the ground cannot be counted on to carry even the machine alone here",
    "overloaded_empty": "an axle is overloaded here with no load at all",
    "slides_empty": "the machine slides here with no load at all",
    "light_empty": "the steered or the braked axle is too light here with no load at all",
    "stuck_empty": "the machine does not pull itself along here with no load at all",
    "no_rated_load": "the machine's plate or chart gives no load here",
    "holds_nothing": "the {part} holds nothing here",
    "not_clear": "{name}: {room}",
    "room": "needs {needs}, has {has}",
    "at_most": "is {is_}, at most {most}",
    "any_room": "needs {needs}, has any",
    "lacking": "not so",
}

UNSAID = {
    "unsaid_slew": "how far the back end is slewed, straight back or the worst on the way| (slew)",
    "unsaid_mass": "what the log weighs: scale and tape do not agree| (mass)",
    "unsaid_plate": "what the machine's plate or chart allows here",
    "unsaid_ground": "what ground the machine stands on",
    "unsaid_pressure": "what pressure the {ground} may carry: none may be presumed",
    "unsaid_tyres": "what the tyres bear on| (front_footprint and rear_footprint in the "
    "machine file)",
    "unsaid_contact": "what the ground carries under the {tool}| (its contact_length in the "
    "machine file)",
    "unsaid_sling": "kind and size of the chain or sling, or the working load limit on its tag|"
    " (sling-kind, sling-size, sling-wll)",
    "unsaid_hook": "the working load limit of the hook| (it stands on the hook) (hook-wll)",
    "unsaid_joint": "what joins sling and machine, if neither hook nor shackle does|"
    " (hook-wll, shackle-wll)",
    "unsaid_shackle": "the working load limit of the shackle, if there is one| (it stands on "
    "its bow) (shackle-wll)",
    "unsaid_hitch": "the working load limit of the eye or hitch on the machine that the hook hangs "
    "in| (hitch-wll)",
    "unsaid_jaw": "how hard the jaw or grab presses on the log| (the machine file's jaw_force)",
    "unsaid_packing": "whether the pads stand on steps or packing that cannot slide down the slope",
    "unsaid_speed": "how fast it travels and how tightly it turns",
    "unsaid_braking": "how hard it brakes",
    "unsaid_sinkage": "how deep the tyres sink",
    "unsaid_axles": "what its axles and tyres are rated for| (in the machine file)",
    "unsaid_wires": "how far overhead wires are, or that there are none",
    "unsaid_edge": "how far and how deep a ditch or bank edge is, or that there is none",
    "unsaid_people": "how far the nearest person is from the hook, or that nobody is about",
    "not_said": f"{NOT_CHECKED}: {{what:; }}.",
    "of_end": "{end:A} end: {what}",
}

ASSUMED = {
    "taken_usual": "{label}: {careful}; usual down to {favourable} ({why})",
    "taken_slope": "ground that slopes by up to {within}, whichever way",
    "taken_seat": "somebody in the seat or nobody, whichever is worse",
    "taken_other": "at the other end whatever the machine's file has, or nothing: whichever is "
    "worse",
    "taken_heavy": "the log as heavy as its species may be",
    "taken_weak": "the ground as weak as its name allows",
    "taken_worn": "the machine's figures at the careful end of their tolerances",
    "taken_swinging": "a log that still swings from the start of the slewing when it stops",
    "taken_stance": "standing on its {stance}",
    "taken_level": "ground level within {level}",
    "taken_straight": "straight ahead: no turn was given",
    "taken_choked": "log in one choked sling",
    "taken_balance": "balance point missed by {miss} of the log's length",
    "taken_sling": "sling or each leg {length:1} long",
    "taken_rigging": "rigging of {mass}",
    "taken_butt": "the butt is lifted, the top stays on the ground: it pulls harder so",
    "taken_surface": "jaw or choke holds on {surface}",
    "taken_tilt": "{tool} tilted {tilt}",
    "taken_curl": "{tool} curled with {share} of the bucket ram out",
    "taken_centre": "the log's balance point within {off} of its length of the middle",
    "taken_height": "plan map at a height of {height}",
    "no_log_hung": "no log was given; for one that hangs the allowed load is the same",
    "no_log_held": "no log was given: a stand-in {length:0} long and {thick:0} thick lies in the "
    "attachment; a thicker or longer one may be allowed less",
    "tank_aboard": "{name} aboard, since it tips sooner so",
    "tank_used_up": "{name} used up, since it tips sooner so",
    "machine_figure": "machine: {key}",
}

WARNINGS = {
    "no_plate": "No plate or chart value was entered for this end: if the machine has one, it "
    "comes before this answer and may be lower.",
    "invented": "{machine} is an invented class, not your machine: measure yours before you trust "
    "a figure.",
    "schematic": "Body and beams are schematic, all pins to scale.",
    "unlikely_fact": "{given} is unlikely in this class, {likely} would not be{why}: {fact}. "
    "Check it by eye, or measure it again; it is taken as right where it is told with a tolerance.",
    "look_which": "Look which is so: {what}, {given} as told or {likely} as is likely.",
    "known_by_facts": "The machine is known by {count}; the rest is as in its class may be, and "
    "the answer holds for nineteen of twenty such machines.",
    "figures_assumed": "{count} of the machine's {of} figures are assumed, not measured.",
    "gauge_above_book": "The gauge reads above the book pressure; the book's was used. A relief "
    "valve set too high is a fault to put right.",
    "bucket_pressed": "Counts only while the bucket is really pressed down and carries weight.",
    "front_reach": "At this height the arms put the lift point {has} ahead of the front axle, not "
    "{asked}; the answer is for the farther.",
    "sideshifted": "With the back end sideshifted, left and right are not alike.",
    "hangs_still": "The log is taken to hang still. Swinging {swing:0} the wrong way would take "
    "{cost} off the tipping load.",
    "still_on_maps": "A hanging log is taken to hang still; --swing says what swinging takes off.",
    "ground_rises": "Heights are from the ground the machine stands on; under the log's uphill "
    "side it may be {rise} higher, and the log so much nearer to it.",
    "levelled": "Counts only while the machine really stands level within {level} on its pads.",
    "slopes": "The ground slopes more than {level}: ratings do not cover that, and a raised load "
    "across a slope is how machines go over. Level the machine.",
    "lies_loose": "The log lies loose: secure it, and keep the attachment rolled back.",
    "tips": "With this log it tips: no ground force holds it.",
    "nothing_presumed": "On this ground no pressure may be presumed. Under the {foot} up to "
    "{force} come down: prove the ground with the machine itself, or stand elsewhere.",
    "ground_unsaid": "what ground it stands on was not said",
    "none_presumed": "no pressure may be presumed for {ground}",
    "proved_there": "Proved here, the ground may carry {force} under the {foot}.",
    "proved_lapses": "Proved ground is proved no longer after rain, at another place, or under "
    "another pad or mat.",
    "ground_carries": "{ground:A} is allowed to carry {force} under the {foot}.",
    "carries_all": "{ground:A} is taken to carry what comes on the {foot}.",
    "carries_less": "Dug, wet or sloping ground, and ground nearer to an edge than its depth, "
    "carries less.",
    "mats_stiff": "Mats count over their whole area only if they are stiff enough for it.",
    "no_ground": "Whether the ground holds is not in these figures: no pressure may be presumed.",
    "all_ways": "Of all ways to brake and turn, the figures are those of the one that allows "
    "least; a limit that does not stop it first may be lower in another.",
    "low_wires": "Wires may hang as low as {height:1}; their height is never counted as distance, "
    "and a wire that sags, swings in the wind or is raised by a load coming off it is nearer than "
    "it looks.",
    "lies_free": "The log is taken to lie free. Bedded, frozen in or caught it can pull many times "
    "as hard at first; no figure is standard.",
    "drawn": "Drawn, the log can dig in, roll or slide downhill into the machine. Rope and chain "
    "whip when they part: nobody within the length of rope and log, in line or beside.",
    "light_drag": "A friction of {friction:g} is less than logs are drawn with on any ground that "
    "is reported (from memory, 0.5 to 0.8).",
    "slack": "At this height the sling hangs slack: nothing is raised yet.",
    "raised": "Raised {raised} at {hook} from its {end}, the log stands at {angle:0}.",
    "hook_comes": "The hook comes {by} toward the {end}: follow it with the lift point, or the "
    "{end} is dragged that far.",
    "may_rise": "The hook is not surely beyond the balance point: the {end} may rise and the whole "
    "log hang, swinging round.",
    "end_turns": "The {end} turns on the ground with up to {mass} on it: it can sink, roll aside "
    "or slide away downhill. Chock it, and nobody beside or below it.",
    "front_rolls": "The front wheels are taken to roll freely. Chock and brake the rear ones, not "
    "the front: nose downhill, a machine held at its front wheels goes over its side sooner than "
    "this.",
    "warning_device": "Above {mass} or {moment:0} of object handling EN 474-4 asks for an overload "
    "warning and boom-lowering control. Does this machine have them?",
    "people": "Everybody stays {radius} away from the point below the hook, outside all that boom "
    "and log sweep while slewing, and out of the way a log rolls.",
    "people_ahead": "Everybody stays {radius} away from the point below the hook, out of the way "
    "it travels, and out of the way a log rolls.",
    "turned_endwise": "Turned endwise toward the machine, the log would meet it: hold it across "
    "with a tag line.",
    "hangs_lower": "Off the ground is said of a log that hangs level. Hung a little off its "
    "balance point one end hangs up to {by} lower and may still touch the ground.",
    "is_sideshifted": "the back end is sideshifted {by} to the {side}",
    "leans_sideways": "the ground or the machine's motion leans sideways",
    "lies_aside": "{parts: and } lies off the machine's middle",
    "snag_tips": "A log held by roots, mud or another log: the machine tips first, at {at} on the "
    "hook, before the rams stall. Never pull at a log that is held.",
    "snag_stalls": "Where the log is caught the rams stall first, at {at} on the hook at most. "
    "Still free it before you lift.",
    "lower_slowly": "Lower no faster than {by} a second, and ease the lever: a stop cut short "
    "throws arm and log down.",
    "legs_unknown": "Whether the rams of the stabilisers hold what they carry is not known: no "
    "machine file has their bore.",
    "not_modelled": "The strength of frame, boom and pins, and a hose that bursts, are in no "
    "figure here.",
    "not_itself": "Not checked here: log or end against the machine itself.",
}

POSSIBLE = {
    "must_be_clear": "The whole log hangs clear, its lower end too, within {slack}: lift higher, "
    "sling it shorter or nearer its balance point.",
    "slides_out": "Steeper than friction holds, a log slides out of its choke: sling it nearer its "
    "balance point, or in two legs.",
    "slips_off": "A choke so near the end slips over it: {usual} in is usual.",
    "back_on_wheels": "put the stabilisers down, tyres give and the machine rocks",
    "is_drawn": "on the move an end that stays down is drawn: it digs in, rolls and catches; set "
    "it down, or tell it as drawn with one end up",
    "no_faster": "what is faster jolts more than is reckoned with",
    "level_first": "a raised load that is slewed on a slope is how machines go over",
    "never_raised": "On a slope across of more than {slope} a load on wheels is kept low.",
    "meets_machine": "Lower it farther out, or sling it shorter: it meets legs, wheels or boom.",
    "leg_travel": "The legs reach no farther: go where it is less steep, or pack under the pads.",
    "leg_travel_taken": "Travel of the legs is taken, as the machine file does not say it: measure "
    "it (travel of the stabilisers), go where it is less steep, or pack under the pads.",
    "pads_slide": "Level or not, the pads stand on sloping ground and may slide on it: cut steps.",
    "without_devices": "without overload warning and boom-lowering control no more may hang there",
    "slew_torque": "what the slew can hold against slope and pull",
    "slew_torque_taken": "the torque that a slew of this class may have at least; measured, it "
    "goes into the machine file (slew_torque)",
    "stopped_short": "a lowering stopped short throws arm and log down, and must lift no support",
}

CLEARANCES = {
    "uk_wires": "Nearer than this only as the network operator advises; wires {carried}.",
    "wires_on": "on {on}",
    "carried_unsaid": "of which it was not said what carries them, so the largest distance is kept",
    "us_wires": "By table A for {voltage}; no part of machine, rigging or load may be nearer.",
    "us_wires_unsaid": "The voltage was not given, so the largest distance of the table is kept.",
    "edge": "Stand at least {depths:g} times as far back as the edge is deep: once on sound "
    "ground, twice on loose or filled; farther where the bank is wet or undercut.",
    "circle": "Everybody outside all that boom and log sweep, swing, topple or roll over; nobody "
    "downhill of it, under it, or between log and machine.",
    "too_steep": "Steeper than that the whole weight may come on the hook: lower, or lift it "
    "whole.",
}

RATINGS = {
    "and_so": "{each:; }",
    "by_size": "{kind} of {size}, by the doggers' rule of size",
    "by_row": "{kind}, {size} in EN 818-4 (from memory)",
    "by_tag": "as its tag says",
    "by_tag_of_whole": "its tag is taken as that of the whole sling of two legs, up to 90° apart",
    "not_for_lifting": "chain of grade 30 is not made for lifting: only where nothing better is at "
    "hand",
    "not_marked": "no mark on it: what bears no working load limit is not for lifting",
    "marked_for_all": "as marked on it; all that hangs below the machine is taken to hang on it",
    "marked_for_leg": "as marked on it; {legs}, which pulls it by more than all that hangs",
    "choke_leaves": "a choke leaves {share} of it ({source}): let it find its own angle, never "
    "beat it down",
    "basket_parts": "two parts, at most {angle:0} apart",
    "slides_endwise": "a log in one basket slides out endwise when it tips",
    "bent_rope": "rope bent round a log has {share} left (from memory)",
    "uniform": "both together as {times:g} straight legs at most up to {most:0}, as one beyond "
    "(uniform rating of EN 818-4 and EN 1492, from memory)",
    "one_of_two_legs": "one end of the log hangs on one of two legs",
    "legs_apart": "legs {angle:0} apart, the worse one carries {share} of the log",
}

LIFTS = {**RATINGS, **VERDICTS, **UNSAID, **ASSUMED, **WARNINGS, **POSSIBLE, **CLEARANCES}
