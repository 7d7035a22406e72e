"""Parts of a printing: each laid out by itself in a pool of processes, kept for the next time, put together.

In: HTML of a part. Out: its PDF, and whole files with tags, links, bookmarks and page labels. What a part
says is not known here.
"""
