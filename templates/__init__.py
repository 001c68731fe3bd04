"""Pages, partials, style sheet and fonts of the printed documents."""
