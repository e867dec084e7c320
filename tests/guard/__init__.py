"""The rules of the house as functions: text in, broken rules out; spec/ runs them on the tree and on planted faults."""
