"""Blocks as twelve coaches would send them, each with what it means beside it."""
