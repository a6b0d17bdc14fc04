"""Beyond the one lesson: other settings, and bouts."""
