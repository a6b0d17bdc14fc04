"""Beyond the one lesson: plans by chance."""
