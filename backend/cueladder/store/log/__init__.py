"""The append-only log of events: checked, kept, folded."""
