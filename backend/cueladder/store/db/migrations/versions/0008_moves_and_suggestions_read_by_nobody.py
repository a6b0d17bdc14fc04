"""moves and suggestions that nothing reads."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.drop_column("lesson_drill", "move")
    op.drop_column("lesson_drill", "suggestion")
    op.drop_column("standing", "move")


def downgrade() -> None:
    """Undo; the columns come back without what stood in them, which the walk says too."""
    move = sa.Column("move", sa.String(length=8), nullable=False, server_default="stay")
    said = sa.Column("suggestion", sa.JSON(), nullable=False, server_default="{}")
    op.add_column("lesson_drill", move._copy())
    op.add_column("lesson_drill", said)
    op.add_column("standing", move._copy())
