"""Tables with their sources: materials, known objects, house rules, findings, checks and the shipped cases."""
