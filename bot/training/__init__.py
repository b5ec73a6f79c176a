"""What the trade knows. Pure: no messenger, no database, no clock on the wall."""
