"""The pages: parse a form, ask the bench, show. Served on the loopback address alone.

A question gets its page by one file in `pages`, one template, and one line in `pages.WHEN_ASKED`.
"""
