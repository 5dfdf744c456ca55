"""What a log is and weighs."""
