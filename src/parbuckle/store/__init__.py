"""Where cases and kits are kept with their history: one port; in memory, SQLite and PostgreSQL behind it."""
