"""learned."""

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "learned",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("asked_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("done_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("figures", sa.JSON(), nullable=False),
        sa.Column("trouble", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_learned_club_id")),
        sa.PrimaryKeyConstraint("club_id", name=op.f("pk_learned")),
    )


def downgrade() -> None:
    """Undo."""
    op.drop_table("learned")
