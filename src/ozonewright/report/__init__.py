"""A report as a file: pages to print, one file for a browser, or a folder of tables and figures."""
