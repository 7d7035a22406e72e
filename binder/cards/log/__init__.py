"""What the log brings to paper: faults on the cards concerned, and a page of what was read over time.

In come figures and findings of ``assessment/log``, out go blocks and a page; nothing is computed here.
"""
