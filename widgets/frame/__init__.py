"""What stands around every workspace: tool rows, the one Connect bar, the badge of arming; never what they show."""
