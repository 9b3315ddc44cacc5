"""Register lists: read from tables of other programs, matched to the keys of signals, and written out again.

The way of an import: bytes -> `Sheet` of cells (`reading`, `sunspec`) -> matching of its columns (`column_mapping`)
-> signals and notes on rows (`row_parser`) -> one edit of the project (`import_plan`). The way of an export: `listing`
-> `writing`. Nothing here opens a window or a line.
"""
