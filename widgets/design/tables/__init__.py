"""Tables of the parts of a project, edited in place, pasted and filled: for any kind of part."""
