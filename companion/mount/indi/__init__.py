"""A mount behind INDI, the published XML protocol.

Version 1.7: http://www.clearskyinstitute.com/INDI/INDI.pdf. What the properties mean:
https://docs.indilib.org/drivers/standard-properties.
"""
