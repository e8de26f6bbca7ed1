"""The questions from Python: typed text or files in, an answer out that reads well and computes.

`ozonewright` loads one of these modules when a name of it is asked for.
"""

NAMES = {
    "Answer": "answers",
    "Book": "book",
    "absorber": "supply",
    "agreement": "soundness",
    "check": "soundness",
    "claim": "settings",
    "compare": "settings",
    "drift": "questions",
    "duty": "supply",
    "flask": "supply",
    "gas_line": "questions",
    "gas_use": "supply",
    "gate": "questions",
    "generator": "settings",
    "open_notebook": "book",
    "output": "questions",
    "power": "supply",
    "reaction": "questions",
    "recipe": "questions",
    "room": "hazards",
    "room_oxygen": "hazards",
}
"""Every public name, and the module that it stands in."""
