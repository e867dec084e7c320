"""Who goes, and for how long: tasks and window, exposure, oxygen, breathing gas and the way up of divers."""
