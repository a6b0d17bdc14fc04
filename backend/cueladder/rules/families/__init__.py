"""Rule families: when a count climbs or steps back, each a small state machine."""
