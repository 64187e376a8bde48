"""Visit record -> the same record, judged: limits on readings, what is missing, cautions.

Reads records and vocabulary, loads no engine; Pint only where units differ.
"""
