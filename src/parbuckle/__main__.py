"""``python -m parbuckle`` is the ``parbuckle`` command."""

import sys

from parbuckle.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
