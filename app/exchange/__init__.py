"""Register lists: read from tables of other programs, matched to the keys of signals, and written out again.

The way of an import: bytes -> `Sheet` of cells (`reading`, `sunspec`) -> matching of its columns (`matching`)
-> signals and notes on rows (`rows`) -> one edit of the project (`joining`). The way of an export: `listing` ->
`writing`. Nothing here opens a window or a line.
"""
