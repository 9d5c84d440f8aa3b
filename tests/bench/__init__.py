"""Benchmarks: commands that print ratios in one run. Never a timed test."""
