"""The wire format of Modbus, for client and simulation: requests, framing, damaged frames. No input or output."""
