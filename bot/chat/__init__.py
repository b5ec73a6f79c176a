"""Telegram's side: updates in, messages, buttons and pictures out; every sentence the bot says."""
