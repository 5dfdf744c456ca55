"""What is said in answer to a question, of a comparison and of a remedy, by code."""

from __future__ import annotations

COMPARISON = {
    "way_between": "Between the two places only the slew is checked, reach and height in step with "
    "it: another way can be worse.",
    "must_drive_up": "the machine can drive up to the log at both places, on firm ground",
    "must_drive_low": "it drives from pick-up to set-down with the log on it (checked as carried "
    "on the move): low all the way, raised only at the end",
    "must_hold_pads": "stabilisers down on ground that holds",
    "must_hold_tyres": "standing on its tyres, the stabilisers not counted",
    "must_press_bucket": "front bucket pressed on the ground and carrying weight",
    "bucket_uncounted": "front bucket need not be pressed down; it is not counted",
    "must_reach_both": "set up once where both places are within reach",
    "must_slope": "ground no steeper than the {slope} that was stated",
    "must_level": "ground level within {level}",
    "must_carry": "ground that carries {force} under the {foot}",
    "must_have_pads": "{ground} under every pad, and a pad or stiff mat {side} square at least",
    "must_carry_log": "chain or sling, hook and all between may carry {times:.2f} times the log, "
    "slung as it is",
    "must_roll_off": "the log can roll off or be drawn off at the set-down",
    "must_rest": "the log rests before anybody unhooks the sling",
    "must_open": "the {tool} has room to open where it sets down",
    "room_to_tip": "room to tip or draw back the {tool} at the bunk",
    "room_of_tool": "how much {across} the {tool} takes up when open",
    "room_of_bunk": "the bunk's clear {across}",
    "open": "open it takes {needs} of {across}, the bunk has {has}",
    "not_so": "NOT SO: {why:; }",
    "neither": "Neither: the front end {front}; the back end {back}.",
    "take": "The {end} end, since it uses {share} of what it may, and the {other} end {against}.",
    "cannot_say": "It cannot be said yet which end: of the {end} end, {said}.",
    "is_open": "cannot be judged yet",
    "in_turn": "{said: }",
    "would_use": "would use {share}",
    "has_to_drive": "It has to drive with the log.",
    "find_out_first": "First find out whether it can let go there.",
    "only_as_told": "All that only as far as it was told.",
    "no_pose": "cannot be done at {place} ({why:: })",
    "no_room": "cannot be done at {place} ({name}: {room})",
    "lacks": "lacks {mass} at {place}, stopped by {by}",
    "cannot_let_go": "cannot let go inside the bunk ({why:; })",
}

QUESTIONS_ASKED = {
    "ballast": "ballast for this lift",
    "carry": "height of the lift point to carry this log at",
    "balance": "balance point of the log, from the butt: {what} belongs there",
    "middle_of_legs": "the middle between the legs",
    "the_chain": "the chain",
    "greatest": "greatest {along} for this log",
    "longest": "longest piece with the {keep} that can be lifted there",
    "pads": "side of a square pad or mat under each stabiliser on {ground}",
    "pressure": "gauge pressure at which every ram carries this log",
    "steepest_any": "steepest slope for this lift, uphill whichever way is worst",
    "steepest_stated": "steepest slope for this lift, uphill as stated",
}

STOPPED_BY = {
    "passes_as_is": "nothing: it is within the limits as it is",
    "whole_passes": "nothing: the whole log is within the limits",
    "any_pressure": "nothing: the least that is tried serves",
    "any_pad": "nothing: the least that is tried is enough",
    "nothing_up_to": "nothing up to {slope:0}, the steepest that is tried",
    "hangs_itself": "the log itself: it hangs with its balance point under the hook",
    "arms_no_lower": "the arms, which go no lower",
    "log_too_low": "the log, which would be less than {clear:1} clear of the ground",
}

DETAILS = {
    "ahead_of_rear_axle": "ahead of the rear axle",
    "left_of_middle": "to the left of the middle",
    "above_ground": "above the ground",
    "usual_miss": "how far off it may be, as usual",
    "level_from": "hangs within {level:0} from",
    "level_to": "hangs within {level:0} to",
    "off_level": "it hangs off the level by up to",
    "leg_at": "leg nearer the {end}, from the butt",
    "most_on_leg": "at most on the leg nearer the {end}",
    "one_end_load": "on the hook with only the {end} end raised",
    "unbroken_from": "within the limits without a break from a {along} of",
    "reach_there": "reach ahead of the front axle there",
    "cut_at": "cut, from the butt",
    "piece_mass": "planning mass of the piece",
    "left_over": "length left over",
    "uphill_then": "uphill then (0° ahead, 90° to the left)",
    "clear_there": "clear of the ground, off its balance",
    "allowed_there": "allowed on the lift point there",
    "heaviest_there": "heaviest log there",
    "most_on": "at most on the {foot}",
    "by_quick_rule": "on the worst by the quick rule, to compare",
    "mat_area": "area of that mat",
    "own_area": "area of the machine's own pad",
}

NOTES = {
    "no_ballast": "No ballast is needed.",
    "no_ballast_helps": "No ballast can help: stopped by {by}, not only by balance.",
    "not_even_ballast": "Not even {most} at any of the places is enough.",
    "put_ballast": "Put it {spot}; it must be fixed so that it cannot shift.",
    "frame_unknown": "What the frame that carries it may bear is not known; axles and tyres count "
    "where the machine stands on them. It loads them whether or not a log hangs: take it off when "
    "the lift is done.",
    "ballast_elsewhere": "{mass} would do {spot}.",
    "basket_tips": "A basket holds the log from beneath, so nothing brings it level: it slides "
    "through or tips at the least miss. Choke it, or use two legs.",
    "narrow_window": "That window is {wide:0} wide, narrower than a balance point from a tape is "
    "sure: raise the log a hand's breadth, watch which end stays down, set it down and move the "
    "chain toward that end.",
    "slung": "Slung at {at} it is {off} off toward the {toward}: {window}.",
    "inside_window": "within the window",
    "outside_window": "outside the window, and the {low} end hangs low",
    "extras_guessed": "Roots, limbs or what else it carries are estimated: the balance point is "
    "less sure than said.",
    "one_end_alone": "One end alone: the other stays on the ground and the log turns on it. Nobody "
    "beside it.",
    "gets_nowhere": "The machine gets nowhere at this {other}.",
    "passes_nowhere": "At no {along} is this log within the limits at this {other}; most "
    "is allowed at {at}, and there it lacks {lacks}.",
    "passes_again": "From {at} {along} it would be within the limits again, but not on the "
    "way there.",
    "no_cut": "No cut is needed.",
    "not_even_piece": "Not even a piece of {length:0} is within the limits there.",
    "weigh_anew": "Weigh and sling the piece anew: its balance point is its own. What is left over "
    "is not checked here.",
    "book_too_low": "The book pressure of {book} is not enough for the {ram}. A relief valve set "
    "above the book breaks the machine: change the place or the log.",
    "read_gauge": "Read the gauge at the pressure port with the ram stalled, oil warm.",
    "gauge_enough": "The gauge reads {reads}: enough.",
    "gauge_too_low": "The gauge reads {reads}: not enough.",
    "no_pressure_enough": "No pressure is enough for the whole lift: it is stopped by {by} as "
    "well.",
    "not_on_level": "It is not within the limits even on level ground.",
    "model_stops": "Ratings assume level ground within {level}. This is where the model stops, not "
    "a slope to work on: level the machine.",
    "as_unlevelled": "Taken as not levelled. Really brought level within {level} on its pads the "
    "machine itself does not feel the slope, but the ground under its pads does.",
    "slides_as_given": "Sliding is in it with a friction of {friction:.2f}.",
    "slides_as_usual": "Sliding is in it with a friction of {friction:.2f}, careful for {ground}.",
    "tyres_steepen": "Tyres that sink on the downhill side steepen the slope: that is not in it.",
    "sinking_uncounted": "Sinking is not in it: say what ground the pads stand on.",
    "swing_uncounted": "A load that swings downhill is not in it: give a swing to have that.",
    "prove_it": "No size can be said here. How the machine itself proves the ground tells liftcalc "
    "ground proof.",
    "not_even_mat": "Not even a mat of {side:0} is enough.",
    "own_pads_do": "The machine's own pads are large enough.",
    "mats": "The machine's own pads are too small: put mats of {side} × {side} under them, stiff "
    "enough to carry over their whole area.",
    "size_only": "With such mats the lift is still stopped, by {by}: this is a size, not a lift "
    "within the limits.",
    "taken_to_carry": "{ground:A} is allowed to carry {carries} under a pad of that size, at the "
    "careful end of what is called so ({source}).",
    "quick_rule": "The quick rule ({source}) is meant for cranes on four outriggers; it is not "
    "used here.",
}

CARRYING = {
    "carried_nowhere": "At no height that keeps it {clear:1} clear is this log within the limits "
    "on the move; most is allowed at {at}.",
    "on_level": "on the level",
    "on_slope_said": "on the slope that was said",
    "across_slope": "across a slope of {slope:0}",
    "allowed_here": "{allowed} are",
    "nothing_here": "nothing is",
    "cost_of_height": "{where:A} {here} allowed at this height (by {by}); {higher}.",
    "arms_no_higher": "the arms go no higher",
    "higher_costs": "{higher:1} higher costs {loss} (of tipping alone {tipping})",
    "slope_costs": "The slope alone costs {loss} at this height, of tipping alone {tipping}.",
    "turn_said": "in a turn of {radius:1} at the rear axle",
    "turn_taken": "in a turn of {radius:1} at the rear axle (none was said; that is a tight one)",
    "tips_even_standing": "tipping keeps less than its share even standing",
    "keeps_share": "tipping keeps its share up to {speed}",
    "in_a_turn": "{turn:A} {kept}; at {edge} the machine would be at the edge of rolling over on "
    "smooth ground. A bump, or a wheel in a hole, takes it over sooner.",
    "tyres_deep": "with the tyres {deep} deep",
    "no_tyre_sinks": "on ground into which no tyre sinks",
    "resistance": "Resistance to travel {rutted}: up to {force}.",
    "stuck": "it does not pull itself along even there",
    "pulls_out": "it pulls itself out of ruts up to {depth} deep",
    "pulls": "{out:A}, with a friction of {friction:.2f} on {ground}.",
    "front_carries": "The back end carries nothing on the move: this is the front end with its "
    "{tool}, {point}.",
    "swings_on_move": "A log that hangs swings on the move: tie it, or hold it in a jaw or on "
    "forks.",
}

REMEDIES = {
    "closer": "closer by {by:1}",
    "can_come_nearer": "the machine or the log can be brought that much nearer",
    "lower": "lower by {by:1}",
    "clear_below": "nothing stands in the way down there, the log stays clear of the ground",
    "other_end": "the {end} end with the {tool}, {point}",
    "can_face": "the machine can be driven so that its front end faces the log, on ground that "
    "carries its tyres",
    "can_turn_about": "the machine can be turned about and stood on its stabilisers with the log "
    "straight behind it, {reach} from the slew axis",
    "allowed_over_there": "{where}; its own plate or chart, if there is one, allows it; wires and "
    "people are as far from it there",
    "kept_across": "{must}; the log is kept across by a line: turned about its hook it would meet "
    "the machine",
    "one_end_at_a_time": "one end at a time: raise only the {end} end",
    "choked_near_end": "the log is choked near that end, the {resting} stays on the ground and is "
    "chocked, and it lies free: not bedded, frozen or caught; raising it upright is not part of "
    "this",
    "mats_under_pads": "mats of {side:1} × {side:1} under the pads",
    "lie_stiff": "they are stiff enough to carry over their whole area and lie flat",
    "cut": "cut {at} from the butt and lift the {keep} piece",
    "safe_to_cut": "the cut can be made safely where it lies; the rest is another lift",
    "more_ballast": "{mass} of ballast {spot}",
    "rated_for_it": "it is fixed fast, and axle, tyres and frame are rated for it",
    "press_bucket": "press the front bucket on the ground",
    "bucket_carries": "stabilisers down as well, and the bucket really carries weight",
    "stabilisers_down": "stabilisers down",
    "pads_hold": "both pads stand on ground or mats that hold",
    "go_level": "go where the ground is level",
    "level_way": "there is a way that is level within {level}, also where it turns",
    "level": "level the machine",
    "level_on_legs": "level the machine on its stabilisers",
    "stands_level": "it stands level within {level}, on ground or packing that does not give",
    "use": "use the {tool}, {point}",
    "fitted_and_sound": "it is fitted and sound; the lift point is at the same height, so the log "
    "itself may lie higher or lower",
    "heavier": "a heavier {part}",
    "stamped": "its tag or stamp says what it may carry, and every other part is at least as "
    "strong",
    "prove_the_ground": "ground that the machine itself has proved, or another place",
    "proof_first": "what this ground carries cannot be said: liftcalc ground proof tells how",
}

QUESTIONS = {
    **COMPARISON,
    **QUESTIONS_ASKED,
    **STOPPED_BY,
    **DETAILS,
    **NOTES,
    **CARRYING,
    **REMEDIES,
}
