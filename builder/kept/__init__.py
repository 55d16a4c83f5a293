"""What an earlier build found out and this one may take up again. All of it can be thrown away at any time.

A thing is kept under its name, beside a key: the digest of everything it was made from. Where the key is another today,
the thing is made anew and takes the old one's place, so nothing stale is handed out and nothing piles up.
"""
