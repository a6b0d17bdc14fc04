"""Reading the log back: cue by cue, lesson by lesson, over a season."""
