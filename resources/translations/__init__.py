"""Translations of the program's texts: `fanlight_XX.ts` is worked on by people, `fanlight_XX.qm` is what Qt reads."""
