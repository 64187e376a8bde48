"""The commands, one module for each group of them. They read options and call the stages; no logic of their own."""
