"""The notebook: one file, append-only revisions, nothing lost."""

from ozonewright.notebook.book import Notebook
from ozonewright.notebook.entry import REASONS, Entry, Imported, Reason, StoredResult

__all__ = ["REASONS", "Entry", "Imported", "Notebook", "Reason", "StoredResult"]
