"""Each claim of the register on simulated truths: how often it is said, how often wrongly."""
