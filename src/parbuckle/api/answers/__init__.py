"""What the server answers, by shape: the page's own types are made from these."""
