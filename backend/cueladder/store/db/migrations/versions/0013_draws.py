"""draws: plans by chance."""

import sqlalchemy as sa
from alembic import op

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "draw",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("drawn_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("seed", sa.String(length=64), nullable=False),
        sa.Column("drills", sa.JSON(), nullable=False),
        sa.Column("begins", sa.JSON(), nullable=False),
        sa.Column("first", sa.String(length=10), nullable=False),
        sa.Column("last", sa.String(length=10), nullable=False),
        sa.Column("withdrawn_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("withdrawn_by", sa.String(length=36), nullable=True),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_draw_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_draw_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_draw")),
    )
    op.create_index(op.f("ix_draw_club_id_fencer_id"), "draw", ["club_id", "fencer_id"])


def downgrade() -> None:
    """Undo."""
    op.drop_table("draw")
