"""Personal records: export and retention."""
