"""House rules, regimes and stops: results and answers go in, findings come out."""
