"""What do people tell in a roundabout way, and how do most tell it? One module a theme, one row a way of telling.

What a row is says rewriting.py; the order in which all are applied stands in noise.py.
"""
