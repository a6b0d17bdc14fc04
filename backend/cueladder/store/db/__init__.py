"""The database: engine, rows, migrations, models."""
