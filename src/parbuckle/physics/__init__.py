"""Water, gas, drag, holes and bodies in motion: arrays of SI floats, nothing else."""
