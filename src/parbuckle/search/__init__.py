"""Where it is: accounts become a map, the map a search that a team can swim, the search what is proved."""
