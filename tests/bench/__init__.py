"""Measurements against the bars; they print, and never fail for a slow machine."""
