"""Speed promises, measured as ratios in one run."""
