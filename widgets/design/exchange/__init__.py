"""Register lists in and out: the dialogs of import and export."""
