"""edits and imports."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "edit",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("taken_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_edit_club_id")),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_edit")),
    )
    op.create_table(
        "roster_import",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("added", sa.Integer(), nullable=False),
        sa.Column("imported_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("undone_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_roster_import_club_id_coach_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_roster_import")),
    )
    with op.batch_alter_table("roster_import", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_roster_import_club_id_coach_id"), ["club_id", "coach_id"], unique=False
        )
    with op.batch_alter_table("fencer", schema=None) as batch_op:
        batch_op.add_column(sa.Column("import_id", sa.String(length=36), nullable=True))


def downgrade() -> None:
    """Undo."""
    # not by batch: SQLite would make the table anew, under the feet of those that point to it
    op.drop_column("fencer", "import_id")
    with op.batch_alter_table("roster_import", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_roster_import_club_id_coach_id"))
    op.drop_table("roster_import")
    op.drop_table("edit")
