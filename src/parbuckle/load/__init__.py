"""What it weighs: parts, shapes, known objects, trial lifts, break-out and the weight on leaving the water."""
