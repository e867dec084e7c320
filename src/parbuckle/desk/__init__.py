"""The use cases that every face calls: open, plan, check, brief, table, new."""
