"""A case of a trial noted while a person operates the panel. It presses no key and writes nothing by itself."""
