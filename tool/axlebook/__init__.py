"""A versioned plain-text ledger of a heritage steam locomotive's running gear."""

__version__ = "0.1.0"
