"""The training-block companion: a coach's block reaches the members, their sets are kept, the week ends with advice."""
