"""Where did a fault of ours happen? For the log, which may show places in the code but nothing that a person wrote."""

from __future__ import annotations

import traceback
from pathlib import Path


def where(error: BaseException, *, frames: int = 4) -> str:
    """The innermost places, innermost last: `ValueError log_sets.py:81 records.py:40`. Never the error's own words."""
    places = traceback.extract_tb(error.__traceback__)[-frames:]
    return " ".join([type(error).__name__, *(f"{Path(place.filename).name}:{place.lineno}" for place in places)])
