"""From staged Markdown to a published site: rendering, offline search, content policy, publishing."""
