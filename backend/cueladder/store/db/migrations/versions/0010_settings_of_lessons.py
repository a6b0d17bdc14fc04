"""settings of lessons."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

COLUMNS = (("giver_id", 36), ("giver_hand", 5), ("place", 40), ("state", 7))


def upgrade() -> None:
    """Apply."""
    for table in ("lesson", "held_lesson"):
        for name, length in COLUMNS:
            op.add_column(table, sa.Column(name, sa.String(length=length), nullable=True))


def downgrade() -> None:
    """Undo."""
    for table in ("lesson", "held_lesson"):
        for name, _ in COLUMNS:
            op.drop_column(table, name)
