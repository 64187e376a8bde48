"""The vocabulary author's bench: checks vocab/ as a whole, and shows what is recognised in a sentence.

Stands on top of the stages, as the command line does; no stage imports it.
"""
