"""Run migrations on the database of the current app (SQLite alters a table by copying it)."""

from alembic import context

from cueladder.store.db.engine import Instant, db


def render(kind: str, item: object, _context: object) -> str | bool:
    """Write a column type of ours as what it is in the database."""
    return "sa.DateTime(timezone=True)" if isinstance(item, Instant) else False


with db.engine.connect() as connection:
    sqlite = connection.dialect.name == "sqlite"
    if sqlite:
        # a table that others refer to can only be copied and dropped with the checks off
        connection.connection.driver_connection.execute("PRAGMA foreign_keys=OFF")
    context.configure(
        connection=connection,
        target_metadata=db.metadata,
        render_as_batch=sqlite,
        transactional_ddl=True,
        render_item=render,
    )
    try:
        with context.begin_transaction():
            context.run_migrations()
            broken = connection.exec_driver_sql("PRAGMA foreign_key_check").all() if sqlite else []
            if broken:
                raise RuntimeError(f"the migration leaves {len(broken)} rows that refer to nothing")
    finally:
        if sqlite:
            connection.rollback()
            connection.connection.driver_connection.execute("PRAGMA foreign_keys=ON")
