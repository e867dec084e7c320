"""The first form: documents and their steps."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "first"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make both tables."""
    op.create_table(
        "document",
        sa.Column("id", sa.String(40), primary_key=True),
        sa.Column("kind", sa.String(8), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("tree", sa.JSON(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("changed_at", sa.String(40), nullable=False),
        sa.Column("kit", sa.String(40)),
        sa.Column("parent", sa.String(40)),
        sa.Column("variant", sa.Text()),
        sa.Column("removed", sa.Boolean(), nullable=False),
    )
    op.create_index("document_kind", "document", ["kind", "removed", "changed_at"])
    op.create_table(
        "step",
        sa.Column("document", sa.String(40), sa.ForeignKey("document.id"), primary_key=True),
        sa.Column("number", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("changes", sa.JSON(), nullable=False),
        sa.Column("inverse", sa.JSON(), nullable=False),
        sa.Column("gesture", sa.String(80)),
        sa.Column("back", sa.String(8), nullable=False),
    )


def downgrade() -> None:
    """Take both tables away."""
    op.drop_table("step")
    op.drop_table("document")
