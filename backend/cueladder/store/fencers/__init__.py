"""Fencers and their planned lessons: edits, imports, bookings, erasure."""
