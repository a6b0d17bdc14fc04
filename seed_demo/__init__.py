"""An invented club, its fencers, and the study of the rules."""
