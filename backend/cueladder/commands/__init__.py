"""Commands of ``cueladder``. What they need is imported when they run: ``--help`` is quick."""
