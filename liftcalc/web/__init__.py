"""The pages: widgets and words, no arithmetic."""
