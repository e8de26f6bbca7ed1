"""Ozone from what was titrated."""
