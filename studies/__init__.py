"""What is claimed of the tool, measured: each study writes what it found into ``build/``."""
