"""A report as blocks: what is said, once, for paper, for a single file and for a screen."""
