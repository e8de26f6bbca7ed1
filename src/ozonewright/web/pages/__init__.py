"""One file for each page, with its ROUTES; a new question adds its module to PAGES."""

from ozonewright.web.pages import entry, files, first, home, new, runs, setting

PAGES = (home, first, runs, new, setting, entry, files)
