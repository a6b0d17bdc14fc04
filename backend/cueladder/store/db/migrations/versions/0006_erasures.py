"""erasures."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

# PostgreSQL keeps samples of a column for its planner; no name or note of a child is to be one.
PRIVATE = ("nickname", "note")


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "erasure",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=8), nullable=False),
        sa.Column("erased_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("wiped_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("kind IN ('fencer', 'lesson')", name=op.f("ck_erasure_kind")),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_erasure_club_id")),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_erasure")),
    )
    # fencers erased before stay so too: the audit names them, and nothing else does
    op.execute(
        "INSERT INTO erasure (club_id, id, kind, erased_at) SELECT club_id, fencer_id, 'fencer', "
        "max(at) FROM audit WHERE action = 'erased' GROUP BY club_id, fencer_id"
    )
    _keep_samples("0")


def downgrade() -> None:
    """Undo."""
    _keep_samples("-1")
    op.drop_table("erasure")


def _keep_samples(target: str) -> None:
    if op.get_bind().dialect.name != "postgresql":
        return
    for column in PRIVATE:
        op.execute(f"ALTER TABLE fencer ALTER COLUMN {column} SET STATISTICS {target}")
    op.execute("ANALYZE fencer")
