"""Frozen records, one module a kind, and the book that joins them. Values in, values out: no files."""
