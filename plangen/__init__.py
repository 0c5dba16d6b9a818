"""Acceptance-trial plans for cruising boats."""

__version__ = "0.1.0"
