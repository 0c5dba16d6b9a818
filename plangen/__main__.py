"""Lets `python -m plangen` run the program."""

from plangen.cli import run

run()
