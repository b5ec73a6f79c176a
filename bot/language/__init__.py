"""From words to meaning. Pure functions from a text and a situation to a reading."""
