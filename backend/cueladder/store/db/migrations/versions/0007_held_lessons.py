"""held lessons."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "held_lesson",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("opened_at", sa.String(length=24), nullable=False),
        sa.Column("closed", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_held_lesson_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_held_lesson_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_held_lesson")),
    )
    op.create_index(
        op.f("ix_held_lesson_club_id_fencer_id"), "held_lesson", ["club_id", "fencer_id"]
    )


def downgrade() -> None:
    """Undo: what was held becomes a lesson of the day it is dated, as it was before."""
    op.execute(
        "INSERT INTO lesson (club_id, id, fencer_id, coach_id, day, opened_at, closed) "
        "SELECT club_id, id, fencer_id, coach_id, day, opened_at, closed FROM held_lesson"
    )
    op.drop_table("held_lesson")
