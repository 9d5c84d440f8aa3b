"""What a report holds, and its renderers: text for a terminal, JSON for other programs."""
