"""Writes the sharing handbook: start reading at build/straight_line.py."""

from pathlib import Path

VERSION = "1.0.0"
PROJECT = Path(__file__).resolve().parents[1]
HANDBOOK = PROJECT / "handbook"
