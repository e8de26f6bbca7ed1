"""``python -m ozonewright``."""

from ozonewright.cli import main

main()
