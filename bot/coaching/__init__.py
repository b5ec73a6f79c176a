"""What people do, one module a deed. Each runs in one transaction and queues its replies as data."""
