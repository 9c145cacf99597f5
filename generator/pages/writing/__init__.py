"""Templates -> Markdown: every value made safe, every address written from its page."""
