"""Commands of ``cueladder``. They import what they need when they run, to keep ``--help`` quick."""
