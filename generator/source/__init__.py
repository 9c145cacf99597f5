"""TOML and Markdown on disk, read strictly into frozen objects."""
