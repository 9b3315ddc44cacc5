"""Data files: character repertoires, the schema of the project file, translations, icons."""
