"""Keep the queues

Before this step is released: can the version before it still run on the result? Widen first, move the data, narrow later.

Revision: 0001
After:
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from storage.base import BigId, UtcDateTime

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "due",
        sa.Column("id", BigId, nullable=False),
        sa.Column("kind", sa.String(length=60), nullable=False),
        sa.Column("key", sa.String(length=200), nullable=False, comment="Names the thing: member and local date, or the like."),
        sa.Column("member_id", BigId, nullable=True),
        sa.Column("due_at_utc", UtcDateTime(), nullable=False),
        sa.Column(
            "try_at_utc", UtcDateTime(), nullable=False, comment="When to look at it: its moment, or after a failure a later one."
        ),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column(
            "too_late_after_s",
            sa.Integer(),
            nullable=True,
            comment="Seconds after which it is dropped instead; empty: never too late.",
        ),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("finished_at_utc", UtcDateTime(), nullable=True),
        sa.Column("last_error", sa.String(length=300), nullable=True),
        sa.CheckConstraint("state in ('open', 'done', 'dropped', 'failed')", name=op.f("ck_due_state_known")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_due")),
        sa.UniqueConstraint("kind", "key", name=op.f("uq_due_kind_key")),
        comment="What is to happen, and when.",
    )
    with op.batch_alter_table("due", schema=None) as batch_op:
        batch_op.create_index("ix_due_member_id", ["member_id"], unique=False)
        batch_op.create_index(
            "ix_due_open",
            ["try_at_utc"],
            unique=False,
            sqlite_where=sa.text("state = 'open'"),
            postgresql_where=sa.text("state = 'open'"),
        )

    op.create_table(
        "inbox",
        sa.Column("id", BigId, nullable=False),
        sa.Column("update_id", BigId, nullable=True, comment="The platform's; empty only where it made no sense."),
        sa.Column("chat_id", BigId, nullable=True),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("reason", sa.String(length=300), nullable=True, comment="Why it is parked, or failed last."),
        sa.Column("received_at_utc", UtcDateTime(), nullable=False),
        sa.Column("handled_at_utc", UtcDateTime(), nullable=True),
        sa.CheckConstraint("state in ('waiting', 'done', 'parked')", name=op.f("ck_inbox_state_known")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_inbox")),
        sa.UniqueConstraint("update_id", name=op.f("uq_inbox_update_id")),
        comment="Updates as they came; the order of arrival is the id.",
    )
    with op.batch_alter_table("inbox", schema=None) as batch_op:
        batch_op.create_index("ix_inbox_chat_id", ["chat_id"], unique=False)
        batch_op.create_index(
            "ix_inbox_waiting",
            ["id"],
            unique=False,
            sqlite_where=sa.text("state = 'waiting'"),
            postgresql_where=sa.text("state = 'waiting'"),
        )

    op.create_table(
        "outbox",
        sa.Column("id", BigId, nullable=False),
        sa.Column("chat_id", BigId, nullable=False),
        sa.Column("thread_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=60), nullable=False),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.Column("lane", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=200), nullable=True, comment="Given, it makes the message one of its kind for ever."),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("created_at_utc", UtcDateTime(), nullable=False),
        sa.Column("ready_at_utc", UtcDateTime(), nullable=False),
        sa.Column("expires_at_utc", UtcDateTime(), nullable=True),
        sa.Column("attempts", sa.Integer(), nullable=False),
        sa.Column("parts_sent", sa.Integer(), nullable=False, comment="Of a text too long for one message."),
        sa.Column("message_id", BigId, nullable=True, comment="The platform's, of the last part."),
        sa.Column("finished_at_utc", UtcDateTime(), nullable=True),
        sa.Column("last_error", sa.String(length=300), nullable=True),
        sa.CheckConstraint(
            "state in ('waiting', 'sent', 'dropped', 'failed', 'unreachable')", name=op.f("ck_outbox_state_known")
        ),
        sa.CheckConstraint("lane between 0 and 4", name=op.f("ck_outbox_lane_known")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sa.UniqueConstraint("key", name=op.f("uq_outbox_key")),
        comment="Messages as data; only the sender makes text of them.",
    )
    with op.batch_alter_table("outbox", schema=None) as batch_op:
        batch_op.create_index("ix_outbox_chat_id", ["chat_id"], unique=False)
        batch_op.create_index(
            "ix_outbox_ready",
            ["ready_at_utc"],
            unique=False,
            sqlite_where=sa.text("state = 'waiting'"),
            postgresql_where=sa.text("state = 'waiting'"),
        )
        batch_op.create_index(
            "ix_outbox_waiting",
            ["lane", "id"],
            unique=False,
            sqlite_where=sa.text("state = 'waiting'"),
            postgresql_where=sa.text("state = 'waiting'"),
        )


def downgrade() -> None:
    """Going back is done by restoring a backup: a step back would throw away what was written since."""
    raise NotImplementedError("restore a backup made before the upgrade")
