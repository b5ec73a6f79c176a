"""The phrases beside an exercise, one module a kind: each recogniser takes what it reads out of the line (scan.py)."""
