"""The family of loader-backhoes, and what is left of it by what is known of one's own machine."""
