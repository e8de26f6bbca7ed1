"""Ozone going into a liquid: solubility, bubbles, transfer, reaction."""
