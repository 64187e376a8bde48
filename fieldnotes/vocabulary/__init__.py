"""The trade's words and rules, read from YAML."""
