"""Cue Ladder: a lesson companion for fencing coaches."""

__version__ = "0.1.0"
