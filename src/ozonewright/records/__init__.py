"""The numeric twins of what a person wrote down; one file per kind of document.

SI, uncertain, no text to read any more. A field that is None was left empty; nothing here is
filled in on the person's behalf.
"""
