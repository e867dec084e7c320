"""Case in, one frozen Plan out: translates a case into the problems of the stages and gathers their results."""
