"""accounts by code."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "one_time_code",
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("purpose", sa.String(length=8), nullable=False),
        sa.Column("club_id", sa.Integer(), nullable=True),
        sa.Column("role", sa.String(length=12), nullable=True),
        sa.Column("coach_id", sa.String(length=36), nullable=True),
        sa.Column("made_by", sa.String(length=36), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint(
            "purpose IN ('setup', 'join', 'reset')", name=op.f("ck_one_time_code_purpose")
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_one_time_code_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_one_time_code_club_id")),
        sa.PrimaryKeyConstraint("code_hash", name=op.f("pk_one_time_code")),
        sa.UniqueConstraint("id", name=op.f("uq_one_time_code_id")),
    )
    with op.batch_alter_table("one_time_code", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_one_time_code_club_id_coach_id"), ["club_id", "coach_id"], unique=False
        )

    with op.batch_alter_table("device", schema=None) as batch_op:
        batch_op.add_column(sa.Column("name", sa.String(length=60), nullable=True))


def downgrade() -> None:
    """Undo."""
    with op.batch_alter_table("device", schema=None) as batch_op:
        batch_op.drop_column("name")

    with op.batch_alter_table("one_time_code", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_one_time_code_club_id_coach_id"))

    op.drop_table("one_time_code")
