"""bouts."""

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

COUNTS = ("met", "answered", "shown", "fallen", "scored", "conceded")


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "bout",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("watched_at", sa.String(length=24), nullable=False),
        *(sa.Column(name, sa.Integer(), nullable=False) for name in COUNTS),
        sa.Column("voided", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_bout_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_bout_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_bout")),
    )
    op.create_index(op.f("ix_bout_club_id_fencer_id_day"), "bout", ["club_id", "fencer_id", "day"])


def downgrade() -> None:
    """Undo: the events stay in the log."""
    op.drop_table("bout")
