"""Private words that were spoken in a visit: found, struck out of the record, and silenced in the sound."""
