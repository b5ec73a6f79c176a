"""What happens because time passed: the sweep of due work and the outbox sender."""
