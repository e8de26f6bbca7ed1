"""Words, numbers, tables and pictures of results; knows no formula."""
