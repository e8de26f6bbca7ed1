"""The workbench: load, convert, ask, chain. No formula, no sentence.

One file per question, so that asking one loads no other. Command line, pages, report and Python
users all call these functions.
"""
