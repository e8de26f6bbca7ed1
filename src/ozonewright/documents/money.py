"""Prices: a number and a currency, which is text and never converted."""

from __future__ import annotations

import re
from typing import NamedTuple

from ozonewright.errors import Inconsistent, UnitError

_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_WORD = re.compile(r"[^\d\s.,;:/±%+-][^\d\s,;:/±%+-]{0,9}")
EXAMPLE = 'Write it as "130" or "130 EUR".'


class Price(NamedTuple):
    """An amount of money as typed."""

    amount: float
    currency: str


def price(text: str) -> Price:
    """Read one price; the currency may stand before or behind the number, or not at all."""
    tidy = " ".join(text.split())
    found = _NUMBER.search(tidy)
    if not found:
        raise UnitError("no price can be read", got=text, fix=EXAMPLE)
    before, behind = tidy[: found.start()].strip(), tidy[found.end() :].strip()
    words = [word for word in (before, behind) if word]
    if len(words) > 1 or any(not _WORD.fullmatch(word) for word in words):
        raise UnitError("this is not one price in one currency", got=text, fix=EXAMPLE)
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", found[0]):
        point, whole = found[0].replace(",", "."), found[0].replace(",", "")
        raise UnitError(
            f"{found[0]} may be a decimal comma or a thousands separator",
            got=text,
            fix=f"Write {point} or {whole}.",
        )
    return Price(float(found[0].replace(",", ".")), words[0] if words else "")


def one_currency(prices: dict[str, Price]) -> str:
    """Return the currency of all prices; those without a word share it.

    Raises
    ------
    Inconsistent
        Two currencies: nothing is converted.
    """
    words = {one.currency for one in prices.values() if one.currency}
    if len(words) > 1:
        raise Inconsistent(
            "prices in two currencies, and none is converted here",
            where=", ".join(name for name, one in prices.items() if one.currency),
            got=", ".join(sorted(words)),
            fix="State every price in one currency.",
        )
    return words.pop() if words else ""
