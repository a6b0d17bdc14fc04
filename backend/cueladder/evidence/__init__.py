"""Numbers on plain counts and arrays: no storage, no clock, no hidden chance."""
