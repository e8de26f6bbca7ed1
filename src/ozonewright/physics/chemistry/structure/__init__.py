"""Structures: from a SMILES to what ozone may attack, and what becomes of it.

Only these modules and the drawing load rdkit, so that no other question waits for it.
"""
