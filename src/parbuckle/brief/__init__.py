"""Plan document to paper: the brief, the slate, the pool-test sheet and the table of the team's own bags."""
