"""Drills of a club: versions, the starter library, fencers who are working on one."""
