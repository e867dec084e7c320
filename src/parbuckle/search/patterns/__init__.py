"""Patterns that a team can swim: one file to a family, each from a few parameters to legs with headings and lengths."""
