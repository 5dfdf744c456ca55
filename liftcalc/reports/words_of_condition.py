"""Words of a machine's condition: what is looked at on a walk round it, and what was found."""

DO = {
    "do_welds": "Clean the welds of boom foot, dipper ends, loader arms, stabiliser legs and the "
    "frame between them. A rusty line, or a crack in the paint?",
    "do_eye": "The hook, eye and pin that a log will hang from: worn by a tenth, bent, opened, "
    "welded on, or its latch gone?",
    "do_back_hoses": "Engine off, back end on the ground: follow every hose of it and bend it. "
    "Wires showing, a blister, a wet end?",
    "do_front_hoses": "Loader arms down, engine off: bend every hose along them. Wires, blisters, "
    "wet ends?",
    "do_stabiliser_hoses": "Bend the hoses of both stabilisers too, where they flex most as the "
    "legs go down.",
    "do_pressure": "Oil warm, a gauge on the boom ram's line: hold the lever with the ram at its "
    "end until the relief valve blows off. Read it.",
    "do_creep": "Far out, hang half of what it should lift, a hand off the ground; engine off, "
    "hands off. What the hook comes down in five minutes, over five.",
    "do_play": "End stretched out, bucket a hand off the ground: heave the nose up and down, and "
    "to both sides. The whole way it moves freely; the greater.",
    "do_stabilisers": "Stabilisers down, wheels just off the ground, engine off. What each side "
    "comes down in five minutes, over five; the greater.",
    "do_pads": "Both stabiliser pads: there, pinned, and not bent?",
    "do_clamps": "Clamp the carriage of the back end, slew the boom full to one side and rock it. "
    "Does the carriage creep along its rails?",
    "do_soft_tyres": "A gauge on every valve, against the figure on the tyre; does one bulge more "
    "than its fellow?",
    "do_cut_tyres": "Every tyre all round: a cut that shows cords, a bulge, a torn valve?",
    "do_brakes": "On the steepest ground it will work on, empty, parking brake on, engine off: "
    "does it stay? From a walk: does it stop straight?",
    "do_steering": "Engine running: how far does the steering wheel turn before the road wheels "
    "do? More than a hand's width is slack.",
    "do_devices": "A valve on the boom ram's own port, and a lamp or buzzer against overload? Ask "
    "to see both work.",
}
TELLS = {
    "tells_hose": "a hose about to burst: what it holds up then falls",
    "tells_welds": "a beam that may part under load",
    "tells_eye": "the one part the whole log hangs from",
    "tells_pressure": "a tired pump or relief valve",
    "tells_creep": "oil past pistons and valves: the log sinks while it hangs",
    "tells_play": "worn pins and bushes: the log hangs farther out than told, and to a side",
    "tells_stabilisers": "the machine comes to lean while the log hangs",
    "tells_pads": "a bare foot goes into the ground, and slides off mats",
    "tells_clamps": "the back end slides to one side under load",
    "tells_soft_tyres": "less is carried, and the machine leans to it",
    "tells_cut_tyres": "a tyre that may burst under load",
    "tells_brakes": "what stands on wheels may roll away",
    "tells_steering": "a log on the move is steered late",
    "tells_devices": "whether a burst hose drops the boom",
}
RULES = {
    "rule_welds": "nothing is lifted",
    "rule_eye": "nothing hangs from it",
    "rule_no_back_end": "nothing is lifted by the back end",
    "rule_no_carrying": "nothing is carried on the move",
    "rule_front_hoses": "nothing by the front end, nor with its bucket pressed down",
    "rule_stabiliser_hoses": "nothing on the stabilisers",
    "rule_pressure": "the gauge replaces the book's",
    "rule_creep": "past {sound} rams count for less, for {share} at {most}; for nothing past that",
    "rule_play": "past {sound} the load hangs as far off, any way; nothing is lifted past {most}",
    "rule_stabilisers": "the machine leans as a side sinks in five minutes; past {most} "
    "nothing on them",
    "rule_pads": "the foot stands on {side} square, mats or none",
    "rule_soft_tyres": "axles keep {share} of their ratings, a side stands {drop} lower; nothing "
    "on the move",
    "rule_cut_tyres": "nothing by the front end or on wheels",
    "rule_brakes": "nothing on the move, nor on wheels where it slopes more than {slope}",
    "rule_devices": "no more hangs than {mass} and {moment:0} (EN 474-4)",
}
FOUND = {
    "bars_hose": "what shows its wires may burst with the log up: replace it",
    "bars_cracked_weld": "a cracked weld gives no warning: have it opened, welded and examined",
    "bars_worn_eye": "all of the log hangs from it: replace it",
    "bars_loose_clamp": "the back end slides to a side under load: clamp it before anything hangs",
    "bars_soft_tyre": "pump it up before anything is carried",
    "bars_cut_tyre": "it may burst under load: replace it",
    "bars_weak_brake": "a machine that does not stand still carries nothing: mend its brakes",
    "bars_slack_steering": "mend the steering before anything is carried",
    "bars_creep": "a log that sinks so fast is not held: have rams and valve mended",
    "bars_play": "pins and bushes so worn may work out: have them mended",
    "bars_sinking": "the wheels touch again before the log is down: have ram and valve mended",
    "rams_creep": "The hook creeps: the rams are counted for {share} of their force.",
    "hangs_off": "Play lets the load hang {by} off its place, whichever way is worse.",
    "comes_to_lean": "A side gives way: the machine is taken to come to lean by {lean}, whichever "
    "way is worse.",
    "bare_foot": "A pad is missing: the foot is taken to stand on {side} square, whatever lies "
    "below it.",
    "soft_axles": "A tyre is soft: axle ratings count for {share}.",
    "unsaid_condition": "what a walk round the machine found, or that it found nothing|"
    " (liftcalc machine walkround) (faults)",
}
WALKROUND = {
    "usual_back": "straight back, {reach:1} out, {height:1} up",
    "usual_side": "back end to a side, {reach:1} out, {height:1} up",
    "usual_front": "front end, {height:1} up, standing",
    "usual_carried": "front end, on the move",
    "usual_own": "{file}: {end} end, {height:1} up",
}

CONDITION = {**DO, **TELLS, **RULES, **FOUND, **WALKROUND}
