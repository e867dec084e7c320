"""The forms that the tables of the store have had, one after another."""
