"""What stands right of the face and of the map about a screen: what its keys do, and which screens lead to which."""
