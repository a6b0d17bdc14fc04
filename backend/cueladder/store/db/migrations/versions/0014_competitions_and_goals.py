"""competitions of a club, and goals by them."""

import sqlalchemy as sa
from alembic import op

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "competition",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_competition_club_id")),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_competition_club_id_coach_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_competition")),
    )
    op.create_index(op.f("ix_competition_club_id_day"), "competition", ["club_id", "day"])
    op.create_table(
        "goal",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("competition_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("set_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_goal_club_id_fencer_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "drill_id"],
            ["drill.club_id", "drill.id"],
            name=op.f("fk_goal_club_id_drill_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "competition_id"],
            ["competition.club_id", "competition.id"],
            name=op.f("fk_goal_club_id_competition_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_goal_club_id_coach_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "fencer_id", "drill_id", name=op.f("pk_goal")),
    )
    op.create_index(op.f("ix_goal_club_id_competition_id"), "goal", ["club_id", "competition_id"])


def downgrade() -> None:
    """Undo."""
    op.drop_table("goal")
    op.drop_table("competition")
