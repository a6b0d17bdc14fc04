"""Sets given by partners."""

import sqlalchemy as sa
from alembic import op

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "partner_set",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("entered_at", sa.String(length=24), nullable=False),
        sa.Column("chart", sa.String(length=40), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("card", sa.String(length=20), nullable=False),
        sa.Column("cues", sa.String(length=40), nullable=False),
        sa.Column("ticks", sa.String(length=40), nullable=False),
        sa.Column("voided", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_partner_set_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_partner_set_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_partner_set")),
    )
    op.create_index(
        op.f("ix_partner_set_club_id_fencer_id_day"), "partner_set", ["club_id", "fencer_id", "day"]
    )


def downgrade() -> None:
    """Undo: the events stay in the log."""
    op.drop_table("partner_set")
