"""``python -m checkface`` is the command line."""

import sys

from checkface.cli import main

if __name__ == "__main__":
    sys.exit(main())
