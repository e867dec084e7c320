"""Bring the tables of a database from any earlier form to this one."""

from __future__ import annotations

from alembic import command
from alembic.config import Config
from sqlalchemy import Engine

_FOLDER = "parbuckle.store:migrations"


def bring_up_to_date(engine: Engine) -> None:
    """Run the migrations that a database lacks; one that lacks none stays as it is.

    Parameters
    ----------
    engine : Engine
        The database; all of it happens in one transaction.
    """
    config = Config()
    config.set_main_option("script_location", _FOLDER)
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
