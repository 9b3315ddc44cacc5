"""What happens besides readings: events, alarms and faults that come and go, each told once. Keeps no file."""
