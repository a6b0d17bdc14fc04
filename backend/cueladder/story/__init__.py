"""What the marks say about a fencer, in figures and in plain words, for the API and the pages."""
