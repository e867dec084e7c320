"""How it comes up: method, bags, filling, lift gas, rigging, the ascent and the surface."""
