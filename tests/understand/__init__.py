"""Tests of the understand stage: one table of sentences a phenomenon."""
