"""The whole database: backup, and transfer to another."""
