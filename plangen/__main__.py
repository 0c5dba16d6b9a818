"""Lets `python -m plangen` run the program."""

from plangen.cli import main

main()
