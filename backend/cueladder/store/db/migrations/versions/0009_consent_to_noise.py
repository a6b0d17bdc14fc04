"""consent to noise."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

DAYS = ("noise_self", "noise_guardian")


def upgrade() -> None:
    """Apply."""
    for day in DAYS:
        op.add_column("fencer", sa.Column(day, sa.Date(), nullable=True))


def downgrade() -> None:
    """Undo."""
    for day in DAYS:
        op.drop_column("fencer", day)
