"""Access: accounts, sessions, one-time codes, progress links."""
