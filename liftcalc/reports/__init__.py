"""An answer in words and as data."""
