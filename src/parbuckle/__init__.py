"""Plan, brief, record and teach small underwater recoveries with lift bags.

The package imports nothing on its own: each command loads only the rooms that it needs.
"""

__version__ = "0.1.0"
