"""What is kept: models, the log of events, its fold, migrations."""
