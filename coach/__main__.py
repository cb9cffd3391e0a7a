"""Lets `python -m coach` run."""

import sys

from coach.cli import main

if __name__ == "__main__":
    sys.exit(main())
