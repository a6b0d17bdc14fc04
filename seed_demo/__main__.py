"""`python -m seed_demo`: what `cueladder demo` does, from a clone."""

from cueladder.commands.demo import demo

if __name__ == "__main__":
    demo(prog_name="python -m seed_demo")
