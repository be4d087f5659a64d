"""The service that holds what is handed out and handed in: own, timed, and written once."""
