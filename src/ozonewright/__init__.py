"""Ozone on a bench: output, reaction and clearance, each figure with its uncertainty and source."""

__version__ = "0.1.0"
