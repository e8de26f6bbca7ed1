"""Ozone from electrical energy."""
