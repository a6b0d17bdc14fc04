"""Schemas of replies, by what they tell of."""
