"""What the fields of a part are called where a person reads them."""

WORDS = {"at": "loss there", "passes": "lets through"}
"""Fields whose name alone says too little."""


def field_words(name: str) -> str:
    """Return the words of a field of a part."""
    return WORDS.get(name, name.replace("_", " "))
