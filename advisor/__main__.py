"""Run the command line as ``python -m advisor``."""

from advisor.cli import app

app(prog_name="advisor")
