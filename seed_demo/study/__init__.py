"""The experiment that settled the default rules, on invented learners: see `make study`."""
