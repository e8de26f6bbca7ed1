"""Typed text on its way to a terminal."""

from __future__ import annotations

import unicodedata


def harmless(text: str) -> str:
    """Return text without what would steer a terminal or turn its letters about.

    The escapes are TOML's and JSON's own, so that a document reads as it was typed.
    """
    return "".join(
        letter
        if letter == "\n" or not unicodedata.category(letter).startswith("C")
        else f"\\u{ord(letter):04x}"
        if ord(letter) < 0x10000
        else f"\\U{ord(letter):08x}"
        for letter in text
    )
