"""Pictures that go with messages."""
