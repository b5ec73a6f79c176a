"""${message}

Before this step is released: can the version before it still run on the result? Widen first, move the data, narrow later.

Revision: ${up_revision}
After: ${down_revision | comma,n}
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from storage.base import BigId, UtcDateTime

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = None
depends_on = None


def upgrade() -> None:
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    """Going back is done by restoring a backup: a step back would throw away what was written since."""
    raise NotImplementedError("restore a backup made before the upgrade")
