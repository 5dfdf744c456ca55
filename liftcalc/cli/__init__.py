"""The command line: words, no arithmetic."""
