"""Logs and metrics. Imports no other room: whoever needs it is handed a small protocol."""
