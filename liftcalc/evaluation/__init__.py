"""One evaluator: criteria, machine states, poses, gravities and loads to one answer."""
