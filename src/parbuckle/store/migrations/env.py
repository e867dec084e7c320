"""Run by alembic: the migrations on the connection that the program hands over."""

from __future__ import annotations

from alembic import context

from parbuckle.store.tables import TABLES


def migrate() -> None:
    """Run what the database lacks, in one transaction."""
    context.configure(connection=context.config.attributes["connection"], target_metadata=TABLES)
    with context.begin_transaction():
        context.run_migrations()


if hasattr(context, "config"):  # alembic puts it there while it runs this file
    migrate()
