"""An invented group, its coach and their month, told so that it can be played."""
