"""the first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply."""
    op.create_table(
        "chart",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chart")),
    )
    op.create_table(
        "club",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("settings", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_club")),
        sa.UniqueConstraint("name", name=op.f("uq_club_name")),
    )
    op.create_table(
        "change",
        sa.Column("id", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), nullable=False),
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=12), nullable=False),
        sa.Column("object_id", sa.String(length=36), nullable=False),
        sa.Column("field", sa.String(length=40), nullable=False),
        sa.Column("old", sa.JSON(), nullable=False),
        sa.Column("new", sa.JSON(), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_change_club_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_change")),
    )
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_change_club_id_kind_object_id"),
            ["club_id", "kind", "object_id"],
            unique=False,
        )

    op.create_table(
        "coach",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("sign_in", sa.String(length=160), nullable=False),
        sa.Column("passphrase_hash", sa.String(length=200), nullable=False),
        sa.Column("role", sa.String(length=12), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("role IN ('head', 'coach', 'observer')", name=op.f("ck_coach_role")),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_coach_club_id")),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_coach")),
        sa.UniqueConstraint("sign_in", name=op.f("uq_coach_sign_in")),
    )
    op.create_table(
        "drill",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("slug", sa.String(length=80), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_drill_club_id")),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_drill")),
        sa.UniqueConstraint("club_id", "slug", name=op.f("uq_drill_club_id_slug")),
    )
    op.create_table(
        "fencer",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("nickname", sa.String(length=60), nullable=False),
        sa.Column("born", sa.Integer(), nullable=True),
        sa.Column("weapon", sa.String(length=8), nullable=False),
        sa.Column("hand", sa.String(length=8), nullable=False),
        sa.Column("joined", sa.Date(), nullable=True),
        sa.Column("consent", sa.Date(), nullable=True),
        sa.Column("note", sa.String(length=500), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["club_id"], ["club.id"], name=op.f("fk_fencer_club_id")),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_fencer")),
    )
    op.create_table(
        "booking",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("at", sa.String(length=5), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=False),
        sa.Column("plan", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_booking_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_booking")),
    )
    with op.batch_alter_table("booking", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_booking_club_id_day"), ["club_id", "day"], unique=False
        )
        batch_op.create_index(
            batch_op.f("ix_booking_club_id_fencer_id"), ["club_id", "fencer_id"], unique=False
        )

    op.create_table(
        "device",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("label", sa.String(length=120), nullable=False),
        sa.Column("first_seen", sa.DateTime(timezone=True), nullable=False),
        sa.Column("last_seen", sa.DateTime(timezone=True), nullable=False),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_device_club_id_coach_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_device")),
    )
    with op.batch_alter_table("device", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_device_club_id_coach_id"), ["club_id", "coach_id"], unique=False
        )

    op.create_table(
        "drill_version",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("document", sa.JSON(), nullable=False),
        sa.Column("chart_id", sa.String(length=40), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["chart_id"], ["chart.id"], name=op.f("fk_drill_version_chart_id")),
        sa.ForeignKeyConstraint(
            ["club_id", "drill_id"],
            ["drill.club_id", "drill.id"],
            name=op.f("fk_drill_version_club_id_drill_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "drill_id", "version", name=op.f("pk_drill_version")),
    )
    with op.batch_alter_table("drill_version", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_drill_version_club_id_chart_id"), ["club_id", "chart_id"], unique=False
        )

    op.create_table(
        "event",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("type", sa.String(length=16), nullable=False),
        sa.Column("device_id", sa.String(length=36), nullable=False),
        sa.Column("n", sa.BigInteger(), nullable=False),
        sa.Column("at", sa.String(length=40), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=True),
        sa.Column("payload", sa.JSON(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_event_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_event")),
        sa.UniqueConstraint("club_id", "seq", name=op.f("uq_event_club_id_seq")),
    )
    with op.batch_alter_table("event", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_event_club_id_fencer_id_lesson_id"),
            ["club_id", "fencer_id", "lesson_id"],
            unique=False,
        )

    op.create_table(
        "lesson",
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
            name=op.f("fk_lesson_club_id_coach_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_lesson_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "id", name=op.f("pk_lesson")),
    )
    with op.batch_alter_table("lesson", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_lesson_club_id_day"), ["club_id", "day"], unique=False)
        batch_op.create_index(
            batch_op.f("ix_lesson_club_id_fencer_id_day"),
            ["club_id", "fencer_id", "day"],
            unique=False,
        )

    op.create_table(
        "pairing",
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["club_id", "coach_id"],
            ["coach.club_id", "coach.id"],
            name=op.f("fk_pairing_club_id_coach_id"),
        ),
        sa.PrimaryKeyConstraint("code_hash", name=op.f("pk_pairing")),
    )
    with op.batch_alter_table("pairing", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_pairing_club_id_coach_id"), ["club_id", "coach_id"], unique=False
        )

    op.create_table(
        "progress_link",
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("coach_id", sa.String(length=36), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("revoked_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("opened_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_progress_link_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("token_hash", name=op.f("pk_progress_link")),
    )
    with op.batch_alter_table("progress_link", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_progress_link_club_id_fencer_id"), ["club_id", "fencer_id"], unique=False
        )

    op.create_table(
        "standing",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("walk", sa.JSON(), nullable=False),
        sa.Column("suggestion", sa.JSON(), nullable=False),
        sa.Column("move", sa.String(length=8), nullable=False),
        sa.Column("secure", sa.String(length=8), nullable=True),
        sa.Column("day", sa.String(length=10), nullable=True),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "drill_id"],
            ["drill.club_id", "drill.id"],
            name=op.f("fk_standing_club_id_drill_id"),
        ),
        sa.ForeignKeyConstraint(
            ["club_id", "fencer_id"],
            ["fencer.club_id", "fencer.id"],
            name=op.f("fk_standing_club_id_fencer_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "fencer_id", "drill_id", name=op.f("pk_standing")),
        sa.UniqueConstraint("club_id", "seq", name=op.f("uq_standing_club_id_seq")),
    )
    op.create_table(
        "lesson_drill",
        sa.Column("club_id", sa.Integer(), nullable=False),
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("drill_id", sa.String(length=36), nullable=False),
        sa.Column("fencer_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("opened_at", sa.String(length=24), nullable=False),
        sa.Column("before", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("after", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("move", sa.String(length=8), nullable=False),
        sa.Column("suggestion", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("trials", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["club_id", "lesson_id"],
            ["lesson.club_id", "lesson.id"],
            name=op.f("fk_lesson_drill_club_id_lesson_id"),
        ),
        sa.PrimaryKeyConstraint("club_id", "lesson_id", "drill_id", name=op.f("pk_lesson_drill")),
    )
    with op.batch_alter_table("lesson_drill", schema=None) as batch_op:
        batch_op.create_index(
            "ix_lesson_drill_order",
            ["club_id", "fencer_id", "drill_id", "day", "opened_at", "lesson_id"],
            unique=False,
        )

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
    with op.batch_alter_table("sign_in", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_sign_in_club_id_coach_id"), ["club_id", "coach_id"], unique=False
        )
        batch_op.create_index(
            batch_op.f("ix_sign_in_club_id_device_id"), ["club_id", "device_id"], unique=False
        )


def downgrade() -> None:
    """Undo."""
    with op.batch_alter_table("sign_in", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_sign_in_club_id_device_id"))
        batch_op.drop_index(batch_op.f("ix_sign_in_club_id_coach_id"))

    op.drop_table("sign_in")
    with op.batch_alter_table("lesson_drill", schema=None) as batch_op:
        batch_op.drop_index("ix_lesson_drill_order")

    op.drop_table("lesson_drill")
    op.drop_table("standing")
    with op.batch_alter_table("progress_link", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_progress_link_club_id_fencer_id"))

    op.drop_table("progress_link")
    with op.batch_alter_table("pairing", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_pairing_club_id_coach_id"))

    op.drop_table("pairing")
    with op.batch_alter_table("lesson", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_lesson_club_id_fencer_id_day"))
        batch_op.drop_index(batch_op.f("ix_lesson_club_id_day"))

    op.drop_table("lesson")
    with op.batch_alter_table("event", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_event_club_id_fencer_id_lesson_id"))

    op.drop_table("event")
    with op.batch_alter_table("drill_version", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_drill_version_club_id_chart_id"))

    op.drop_table("drill_version")
    with op.batch_alter_table("device", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_device_club_id_coach_id"))

    op.drop_table("device")
    with op.batch_alter_table("booking", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_booking_club_id_fencer_id"))
        batch_op.drop_index(batch_op.f("ix_booking_club_id_day"))

    op.drop_table("booking")
    op.drop_table("fencer")
    op.drop_table("drill")
    op.drop_table("coach")
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_change_club_id_kind_object_id"))

    op.drop_table("change")
    op.drop_table("club")
    op.drop_table("chart")
