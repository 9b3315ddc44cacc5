"""One Modbus client on one line: requests go out, only a proved answer is believed. Knows no signals."""
