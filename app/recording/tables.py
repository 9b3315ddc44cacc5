"""The tables of a recording: an SQLite file that any program can read with what is written here.

Times are whole microseconds since the recording began, of a clock that is never set; `clock` says what the civil time
was then, with a new row whenever somebody set it. Civil times, also those in `meta`, are in the form of ISO 8601, to
the microsecond, with their zone.

`meta`: `format` (1), `began`, `ended` (absent if the program died), `program`, `screen`, where the operator
was on the panel then (absent: not known), `curves`, the signals whose curves somebody looked at, as a JSON list, and
`project`, the project file as it was, in full.

`signal`: the register signals of that project by number. `words` is how many registers one sample has.

`block`: runs of samples of one signal. `first` and `last` are the times of its first and last sample, `count` how many
there are; `low` and `high` the least and the greatest engineering value among the good ones (NULL: none, or a text).
`data` holds, one behind the other and all little-endian: `count` numbers of 32 bits, each the microseconds since the
sample before it (the first one is 0); `count` bytes of quality, as numbered in QUALITIES; and `count` times `words`
registers of 16 bits as they were read, 0 where nothing was. With `packed` 1, `data` is compressed in the form of
RFC 1950 (zlib).

`loose`: samples that are in no block yet, one a row; `words` are registers of 16 bits as above, empty where nothing was
read. They are moved into blocks as soon as there are enough of them, so a sample stands in one of the two tables.

`held`: what held values became, and when; `value` is a fraction or a whole number in decimal digits, such as 19/4.

`event`: what else happened. `kind` and `subject` say what and to whom, `text` says it to a person, `data` is JSON.
"""

from __future__ import annotations

from typing import Final

from app.recording.clock import SECOND
from app.signals.reading import Quality

__all__ = ["APPLICATION_ID", "FORMAT", "GOOD", "QUALITIES", "QUALITY_NUMBER", "SECOND", "TABLES"]

FORMAT: Final = 1
"""The layout that this program writes."""

APPLICATION_ID: Final = 0x46616E6C
"""Stands in the head of the file and tells a recording from other SQLite files."""

QUALITIES: Final = (Quality.GOOD, Quality.STALE, Quality.NONE, Quality.REFUSED, Quality.IMPLAUSIBLE)
"""The qualities by their numbers."""

QUALITY_NUMBER: Final = {quality: number for number, quality in enumerate(QUALITIES)}
GOOD: Final = QUALITY_NUMBER[Quality.GOOD]

TABLES: Final = """
CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL);
CREATE TABLE clock (t INTEGER PRIMARY KEY, civil TEXT NOT NULL);
CREATE TABLE signal (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, words INTEGER NOT NULL);
CREATE TABLE block (
  id INTEGER PRIMARY KEY,
  signal INTEGER NOT NULL REFERENCES signal,
  first INTEGER NOT NULL,
  last INTEGER NOT NULL,
  count INTEGER NOT NULL,
  low REAL,
  high REAL,
  packed INTEGER NOT NULL,
  data BLOB NOT NULL
);
CREATE INDEX block_by_time ON block (signal, first, last, count, low, high);
CREATE TABLE loose (
  id INTEGER PRIMARY KEY,
  signal INTEGER NOT NULL REFERENCES signal,
  t INTEGER NOT NULL,
  quality INTEGER NOT NULL,
  words BLOB NOT NULL
);
CREATE TABLE held (id INTEGER PRIMARY KEY, t INTEGER NOT NULL, signal TEXT NOT NULL, value TEXT NOT NULL);
CREATE TABLE event (
  id INTEGER PRIMARY KEY,
  t INTEGER NOT NULL,
  kind TEXT NOT NULL,
  subject TEXT NOT NULL,
  text TEXT NOT NULL,
  data TEXT NOT NULL
);
CREATE INDEX event_by_time ON event (t);
"""
