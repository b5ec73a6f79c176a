"""The exercise catalogue: what each movement is, needs and trains."""
