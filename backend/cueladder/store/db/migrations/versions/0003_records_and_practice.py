"""records and practice."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "audit",
        sa.Column("id", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False),
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=True),
        sa.Column("action", sa.String(length=16), nullable=False),
        sa.Column("fields", sa.String(length=200), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_audit_club_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_audit")),
    )
    with op.batch_alter_table("audit", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_audit_club_id_fencer_id_id"),
            ["club_id", "fencer_id", "id"],
            unique=False,
        )

    op.create_table(
        "practice",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("ticked_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "drill_id"],
            ["drill.club_id", "drill.id"],
            name=op.f("fk_practice_club_id_drill_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_practice_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint(
            "club_id", "fencer_id", "drill_id", "day", name=op.f("pk_practice")
        ),
    )
    with op.batch_alter_table("practice", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_practice_club_id_drill_id"), ["club_id", "drill_id"], unique=False
        )


def downgrade() -> None:
    """Undo."""
    with op.batch_alter_table("practice", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_practice_club_id_drill_id"))

    op.drop_table("practice")
    with op.batch_alter_table("audit", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_audit_club_id_fencer_id_id"))

    op.drop_table("audit")
