"""Verdicts by surface, faults, what changed, the story of a pot."""
