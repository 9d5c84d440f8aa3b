"""The shell: texts, folders and git history. It fetches and decides nothing."""
