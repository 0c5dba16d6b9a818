"""Lets `python -m plangen` run the program."""

from plangen.cli import run

if __name__ == "__main__":  # processes that lay out pages import this module again
    run()
