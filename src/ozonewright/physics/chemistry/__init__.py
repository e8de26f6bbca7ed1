"""Equilibria in the iodide bottle."""
