"""Tidied text -> findings with evidence."""
