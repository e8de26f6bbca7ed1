"""One file for each page, with its ROUTES; a new question adds its module to PAGES."""

from ozonewright.web.pages import (
    bench,
    claim,
    clearance,
    compare,
    duty,
    entry,
    files,
    first,
    home,
    new,
    phone,
    recipe,
    room,
    runs,
    setting,
)

PAGES = (
    home,
    first,
    runs,
    new,
    recipe,
    duty,
    room,
    clearance,
    compare,
    claim,
    setting,
    entry,
    files,
    bench,
    phone,
)
