"""What decides, worked out with a pencil: in, the assessment and its states; out, the blocks of one page.

Not done here: any calculation of a load or limit. Each term and result is the assessment's own.
"""
