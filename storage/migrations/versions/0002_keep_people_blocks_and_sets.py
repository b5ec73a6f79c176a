"""keep people, blocks and sets

Before this step is released: can the version before it still run on the result? Widen first, move the data, narrow later.

Revision: 0002
After: 0001
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from storage.base import BigId

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "asked",
        sa.Column("chat_id", sa.BigInteger(), nullable=False),
        sa.Column("code", sa.String(length=40), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("message_id", sa.BigInteger(), nullable=True),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_asked")),
    )
    with op.batch_alter_table("asked", schema=None) as batch_op:
        batch_op.create_index("ix_asked_open", ["chat_id", "open"], unique=False)

    op.create_table(
        "claim",
        sa.Column("code", sa.String(length=64), nullable=False),
        sa.Column("used_by", sa.BigInteger(), nullable=True),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_claim")),
        sa.UniqueConstraint("code", name=op.f("uq_claim_code")),
    )
    op.create_table(
        "coach_group",
        sa.Column("coach_chat_id", sa.BigInteger(), nullable=False),
        sa.Column("shared_chat_id", sa.BigInteger(), nullable=True),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coach_group")),
    )
    with op.batch_alter_table("coach_group", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_coach_group_coach_chat_id"), ["coach_chat_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_coach_group_shared_chat_id"), ["shared_chat_id"], unique=False)

    op.create_table(
        "invite",
        sa.Column("code", sa.String(length=64), nullable=False),
        sa.Column("group_id", BigId, nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["group_id"], ["coach_group.id"], name=op.f("fk_invite_group_id_coach_group")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_invite")),
        sa.UniqueConstraint("code", name=op.f("uq_invite_code")),
    )
    op.create_table(
        "member",
        sa.Column("group_id", BigId, nullable=False),
        sa.Column("chat_id", sa.BigInteger(), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("feed_key", sa.String(length=64), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["group_id"], ["coach_group.id"], name=op.f("fk_member_group_id_coach_group")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_member")),
        sa.UniqueConstraint("group_id", "chat_id", name=op.f("uq_member_group_id_chat_id")),
    )
    with op.batch_alter_table("member", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_member_chat_id"), ["chat_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_member_feed_key"), ["feed_key"], unique=False)

    op.create_table(
        "own_name",
        sa.Column("group_id", BigId, nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("exercise", sa.String(length=80), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["group_id"], ["coach_group.id"], name=op.f("fk_own_name_group_id_coach_group")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_own_name")),
        sa.UniqueConstraint("group_id", "name", name=op.f("uq_own_name_group_id_name")),
    )
    op.create_table(
        "revision",
        sa.Column("group_id", BigId, nullable=False),
        sa.Column("series", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["group_id"], ["coach_group.id"], name=op.f("fk_revision_group_id_coach_group")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_revision")),
        sa.UniqueConstraint("group_id", "series", "number", name=op.f("uq_revision_group_id_series_number")),
    )
    op.create_table(
        "advice",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("series", sa.Integer(), nullable=False),
        sa.Column("week_start", sa.Date(), nullable=False),
        sa.Column("day", sa.Integer(), nullable=False),
        sa.Column("label", sa.String(length=8), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_advice_member_id_member")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_advice")),
        sa.UniqueConstraint(
            "member_id", "series", "week_start", "day", "label", name=op.f("uq_advice_member_id_series_week_start_day_label")
        ),
    )
    op.create_table(
        "assignment",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("series", sa.Integer(), nullable=False),
        sa.Column("started_on", sa.Date(), nullable=False),
        sa.Column("ended_on", sa.Date(), nullable=True),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_assignment_member_id_member")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_assignment")),
    )
    with op.batch_alter_table("assignment", schema=None) as batch_op:
        batch_op.create_index("ix_assignment_member", ["member_id", "ended_on"], unique=False)

    op.create_table(
        "message",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("chat_id", sa.BigInteger(), nullable=False),
        sa.Column("message_id", sa.BigInteger(), nullable=False),
        sa.Column("undone", sa.Boolean(), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_message_member_id_member")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_message")),
    )
    with op.batch_alter_table("message", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_message_member_id"), ["member_id"], unique=False)
        batch_op.create_index("ix_message_source", ["chat_id", "message_id"], unique=False)

    op.create_table(
        "pain",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("label", sa.String(length=8), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_pain_member_id_member")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pain")),
    )
    with op.batch_alter_table("pain", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_pain_member_id"), ["member_id"], unique=False)

    op.create_table(
        "relay",
        sa.Column("group_id", BigId, nullable=False),
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("kept", sa.Boolean(), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["group_id"], ["coach_group.id"], name=op.f("fk_relay_group_id_coach_group")),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_relay_member_id_member")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relay")),
    )
    with op.batch_alter_table("relay", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_relay_group_id"), ["group_id"], unique=False)

    op.create_table(
        "session",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("day", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_session_member_id_member")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_session")),
        sa.UniqueConstraint("member_id", "on", "day", name=op.f("uq_session_member_id_on_day")),
    )
    op.create_table(
        "set_record",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("session_id", BigId, nullable=False),
        sa.Column("message_id", sa.BigInteger(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("day", sa.Integer(), nullable=False),
        sa.Column("label", sa.String(length=8), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("exercise", sa.String(length=80), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("replaces", sa.BigInteger(), nullable=True),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_set_record_member_id_member")),
        sa.ForeignKeyConstraint(["session_id"], ["session.id"], name=op.f("fk_set_record_session_id_session")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_set_record")),
    )
    with op.batch_alter_table("set_record", schema=None) as batch_op:
        batch_op.create_index("ix_set_record_day", ["member_id", "on", "active"], unique=False)
        batch_op.create_index("ix_set_record_exercise", ["member_id", "exercise", "active"], unique=False)
        batch_op.create_index(batch_op.f("ix_set_record_message_id"), ["message_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_set_record_session_id"), ["session_id"], unique=False)
        batch_op.create_index("ix_set_record_slot", ["member_id", "day", "label", "active"], unique=False)

    op.create_table(
        "swap_taken",
        sa.Column("member_id", BigId, nullable=False),
        sa.Column("series", sa.Integer(), nullable=False),
        sa.Column("day", sa.Integer(), nullable=False),
        sa.Column("label", sa.String(length=8), nullable=False),
        sa.Column("session_id", BigId, nullable=True),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("id", BigId, autoincrement=True, nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["member_id"], ["member.id"], name=op.f("fk_swap_taken_member_id_member")),
        sa.ForeignKeyConstraint(["session_id"], ["session.id"], name=op.f("fk_swap_taken_session_id_session")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_swap_taken")),
    )
    with op.batch_alter_table("swap_taken", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_swap_taken_member_id"), ["member_id"], unique=False)


def downgrade() -> None:
    """Going back is done by restoring a backup: a step back would throw away what was written since."""
    raise NotImplementedError("restore a backup made before the upgrade")
