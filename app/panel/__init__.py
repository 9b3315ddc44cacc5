"""The panel as it behaves: a state machine without input or output, the rendering to cells, the paging graph."""
