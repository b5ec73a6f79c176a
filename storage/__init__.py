"""One file of data: typed tables, the unit of work, the queues, migrations."""
