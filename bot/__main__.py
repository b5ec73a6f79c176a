"""`python -m bot` is the same as `companion`."""

import sys

from bot.cli import main

sys.exit(main())
