"""Writes the sharing handbook: start reading at build.py."""

VERSION = "1.0.0"
