"""devices are sign-ins.

A device was what the browser called itself, so a stranger's sign-in could stand under the name of
a coach's own phone. Which sign-ins are whose cannot be told any more: all end, everyone signs in
once again, and what phones have not sent stays on them until then.
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.drop_table("sign_in")
    op.drop_table("device")
    op.execute("DELETE FROM pairing")
    op.create_table(
        "device",
        *_columns(),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        *_keys(),
        sa.UniqueConstraint("token_hash", name=op.f("uq_device_token_hash")),
    )
    _index("device", "coach_id")


def downgrade() -> None:
    """Undo."""
    op.drop_table("device")
    op.create_table(
        "device",
        *_columns(),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        *_keys(),
    )
    _index("device", "coach_id")
    op.create_table(
        "sign_in",
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("device_id", sa.String(length=36), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_sign_in_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "device_id"],
            ["device.club_id", "device.id"],
            name=op.f("fk_sign_in_club_id_device_id"),
        ),
        sa.PrimaryKeyConstraint("token_hash", name=op.f("pk_sign_in")),
    )
    _index("sign_in", "coach_id")
    _index("sign_in", "device_id")


def _columns() -> list[sa.Column]:
    return [
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("label", sa.String(length=120), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=True),
        sa.Column("first_seen", sa.DateTime(timezone=True), nullable=False),
        sa.Column("last_seen", sa.DateTime(timezone=True), nullable=False),
    ]


def _keys() -> list[sa.Constraint]:
    return [
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_device_club_id_coach_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_device")),
    ]


def _index(table: str, column: str) -> None:
    op.create_index(f"ix_{table}_club_id_{column}", table, ["club_id", column])
