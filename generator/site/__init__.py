"""From staged Markdown to a finished site: rendering, offline search, books, content policy, audit."""
