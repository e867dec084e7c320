"""The tables of the store, the same for SQLite and PostgreSQL: documents at their last revision, and their steps."""

from __future__ import annotations

from sqlalchemy import JSON, Boolean, Column, ForeignKey, Index, Integer, MetaData, String, Table, Text

TABLES = MetaData()

DOCUMENT = Table(
    "document",
    TABLES,
    Column("id", String(40), primary_key=True),
    Column("kind", String(8), nullable=False),
    Column("title", Text, nullable=False),
    Column("tree", JSON, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("changed_at", String(40), nullable=False),
    Column("kit", String(40)),
    Column("parent", String(40)),
    Column("variant", Text),
    Column("removed", Boolean, nullable=False),
    Index("document_kind", "kind", "removed", "changed_at"),
)
"""One row for each kept case or kit."""

STEP = Table(
    "step",
    TABLES,
    Column("document", String(40), ForeignKey("document.id"), primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("at", String(40), nullable=False),
    Column("who", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("changes", JSON, nullable=False),
    Column("inverse", JSON, nullable=False),
    Column("gesture", String(80)),
    Column("back", String(8), nullable=False),
)
"""One row for each step; rows are added and never altered."""
