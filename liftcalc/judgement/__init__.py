"""From capacities to a verdict: a lift at both ends of all that is not known of it."""
