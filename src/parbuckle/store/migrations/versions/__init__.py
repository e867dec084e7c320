"""One file for each form."""
