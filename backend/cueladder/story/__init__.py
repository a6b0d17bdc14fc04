"""Figures and plain words about a fencer, a drill or the club, for the API and the pages."""
