"""What is said in answer to a question, of a comparison and of a remedy, by code."""

from __future__ import annotations

COMPARISON = {
    "way_between": "Only the two places are checked: the way between them can be worse than "
    "either.",
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

QUESTIONS = {**COMPARISON}
