"""What is said of a log and its weight, by code."""

from __future__ import annotations

LOGS = {
    "round_and_even": "Sections are circles and density is even along the log.",
    "only_middle": "Only the middle was measured: a flared butt is heavier than this, and the log "
    "balances nearer the butt than mid length. Tape both ends as well.",
    "two_ends": "Volume from two ends by Smalian's rule, balance point of a straight taper.",
    "diameters_right": "Diameters are right to {error} (one sigma).",
    "diameters_and_rule_right": "Diameters are right to {error}, and the rule for the volume to "
    "{rule} (one sigma).",
    "density_varies": "Green density of {kind} varies by {spread:1} (one sigma, confidence "
    "{confidence}).",
    "carries": "What the log carries is a guess: the planning mass counts it half as much again.",
    "limbs": "Limbs are counted but not where they sit: a crown moves the balance point to the "
    "top.",
    "root_plate": "The root plate is taken at the butt face; it lies beyond, so the log balances a "
    "little nearer the butt than stated.",
    "basic_gravity": "Basic gravity {gravity:g} ({source}).",
    "fresh_moisture": "Fresh moisture {moisture} of dry mass ({source}).",
    "weighs_otherwise": "The scale said {mass}, where tape and species give {low} to {high}: look "
    "for a slip in either.",
    "few_sources": "Density of {species} has confidence {confidence} (few trees or disagreeing "
    "sources): wider margin.",
    "borrowed": "Density of {species} has confidence {confidence} (borrowed): wider margin.",
    "other_sources": "Other sources of its basic gravity: {sources}.",
    "note": "Note on {species}: {note}.",
    "part_dry": "Part-dry lowers the low and likely mass only: drying cannot be seen from outside, "
    "so the planning mass stays that of a fresh log.",
    "above_ceiling": "Moisture of {moisture} is more than this wood can hold ({ceiling}): taken as "
    "saturated.",
    "measured_moisture": "A measured moisture of {moisture} lowers the low and likely mass only: "
    "one reading is not the whole log, so the planning mass stays that of a fresh one ({fresh}).",
    "higher_figure": "The planning mass covers a higher figure: {source}.",
    "bark_as_wood": "Bark weighs as much as the wood: for this species its own is not known.",
    "over_bark": "Over bark: at the density of wood, or of wood and bark where that is higher.",
    "heaviest_bark": "No bark data for this species: the heaviest bark of any {kind} in the table "
    "was added.",
    "related_bark": "Bark figures are those of a related species ({source}).",
    "under_bark": "Under bark: bark was added; a peeled log is lighter.",
}
