"""What the columns of a register list can hold, and by which titles they are known in English and German lists."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Final, TypeAlias

from app.project.attributes import SIGNAL

Key: TypeAlias = str
"""What a column is taken for: the key of a list column in `app.project.attributes`."""

_COLUMNS: Final = tuple(column for attribute in SIGNAL for column in attribute.list_columns)

TITLES: Final[dict[Key, str]] = {column.key: column.title for column in _COLUMNS}
"""Templates of what a person reads; in English they are the titles that an export writes."""

HINTS: Final[dict[Key, str]] = {column.key: column.hint for column in _COLUMNS}
"""Templates of what it may hold."""

# The titles that lists of registers usually have besides our own: common practice, no source.
_KNOWN: Final[dict[Key, str]] = {
    "name": (
        "name, signal, signal name, tag, tag name, variable, variable name, parameter, parameter name, point, symbol, "
        "designation, register name, item, bezeichnung, signalname, variablenname, parametername, messgröße, messwert, "
        "benennung, registername, datenpunkt"
    ),
    "follower": "follower, device, device name, server, station, gerät, gerätename, teilnehmer, folger",
    "table": (
        "table, register type, reg type, registertype, area, memory area, object type, function code, function, fc, "
        "read function, function code read, modbus function, tabelle, registerart, registertyp, funktionscode, "
        "funktionskode, funktion, bereich, datenbereich, fkt, objekttyp, fc read, fc lesen"
    ),
    "register": (
        "register, register number, register no, register address, reg, reg no, reg address, address, addr, "
        "modbus address, modbus register, start address, start register, data address, first register, "
        "register dec, address dec, address hex, register hex, protocol address, pdu address, registernummer, "
        "registeradresse, adresse, adr, startadresse, startregister, modbusadresse, modbus adresse, modbusregister"
    ),
    "encoding": (
        "encoding, type, data type, datatype, format, data format, value type, variable type, coding, typ, datentyp, "
        "datenformat, kodierung, codierung, format typ, zahlenformat"
    ),
    "length": (
        "length, size, words, word count, registers, register count, number of registers, no of registers, count, "
        "quantity, qty, len, bits, bytes, size bits, size bytes, länge, anzahl, anzahl register, registeranzahl, "
        "wörter, worte, wortanzahl, größe, registerzahl"
    ),
    "word_order": (
        "word order, register order, order of words, word sequence, endian, endianness, word swap, swap, "
        "wortreihenfolge, wortfolge, registerreihenfolge, reihenfolge der worte"
    ),
    "factor": (
        "factor, scale, scaling, scale factor, scaling factor, multiplier, resolution, lsb, faktor, skalierung, "
        "skalierungsfaktor, multiplikator, auflösung, skala"
    ),
    "divisor": "divisor, divider, division factor, teiler, divisions faktor",
    "exponent": "exponent, exponent of ten, power of ten, power of 10, 10^x, 10^n, zehnerpotenz, zehnerexponent",
    "offset": "offset, bias, versatz, nullpunkt",
    "raw_1": "raw 1, raw min, raw low, raw minimum, raw lower, rohwert min, rohwert 1, roh 1, roh min",
    "raw_2": "raw 2, raw max, raw high, raw maximum, raw upper, rohwert max, rohwert 2, roh 2, roh max",
    "value_1": (
        "value 1, scaled min, scaled low, eng min, eu min, eu low, engineering min, wert 1, skaliert min, scale min"
    ),
    "value_2": (
        "value 2, scaled max, scaled high, eng max, eu max, eu high, engineering max, wert 2, skaliert max, scale max"
    ),
    "unit": "unit, units, engineering unit, eu, uom, dimension, einheit, einh",
    "decimals": (
        "decimals, decimal places, dp, digits, precision, fraction digits, nachkommastellen, dezimalstellen, "
        "dezimalen, kommastellen"
    ),
    "lower": (
        "lower limit, min, minimum, min value, minimum value, low limit, lower, from, untergrenze, untere grenze, "
        "minimalwert, minwert, min wert, unterer grenzwert, von"
    ),
    "upper": (
        "upper limit, max, maximum, max value, maximum value, high limit, upper, obergrenze, obere grenze, "
        "maximalwert, maxwert, max wert, oberer grenzwert, bis"
    ),
    "range": "limits in one, range, value range, limits, valid range, min max, wertebereich, grenzen, min...max",
    "step": "step, increment, step size, schritt, schrittweite",
    "write": (
        "write, access, r/w, rw, read/write, read write, access type, mode, writable, permission, attribute, rights, "
        "zugriff, zugriffsart, zugriffsrecht, l/s, schreiben, lesen/schreiben, schreibbar, r w"
    ),
    "texts": (
        "texts, enumeration, enum, values, value texts, states, state texts, options, texte, werte, zustände, "
        "auswahl, aufzählung, wertetexte, zustandstexte"
    ),
    "texts_in": (
        "state texts in other languages, texts in other languages, zustandstexte in anderen sprachen, "
        "texte in anderen sprachen"
    ),
    "every_ms": (
        "every ms, scan rate, poll interval, update rate, polling, cycle, cycle time, interval, scan ms, cycle ms, "
        "alle ms, abfragezyklus, zyklus, intervall, abfrageintervall"
    ),
    "refresh_ms": "refresh ms, rewrite ms, neu schreiben ms, auffrischen ms",
    "start_value": "start value, default, default value, initial value, factory setting, preset, vorgabe, "
    "vorgabewert, werkseinstellung, startwert, anfangswert, standardwert, werkeinstellung",
    "drive_role": "drive role, plays, antriebsrolle, rolle im antrieb",
    "bit_of": "bit of, of signal, base signal, bit von",
    "bit": "bit, bit number, bit no, bit position, bit index, bitnummer, bit nr, bitposition",
    "held": "held value, held, held in the panel, panelwert, gehaltener wert",
    "notes": (
        "notes, note, description, comment, comments, remark, remarks, details, explanation, meaning, function text, "
        "beschreibung, bemerkung, bemerkungen, kommentar, anmerkung, erläuterung, hinweis, bedeutung, notiz, "
        "notizen, text"
    ),
}


def _plain(title: str) -> str:
    """A title without capitals, signs and what stands in brackets."""
    text = re.sub(r"[\[(].*?[\])]", " ", title.casefold().replace("ß", "ss"))
    text = re.sub(r"\b(?:no|nr|num|nummer)\b\.?", " no ", text)
    return " ".join(re.sub(r"[^\w/^+.#]+|[._]+", " ", text).split())


_BY_TITLE: Final[dict[str, Key]] = {
    **{_plain(title): attribute.key for attribute in SIGNAL if not attribute.columns for title in attribute.also},
    **{_plain(title): key for key, title in TITLES.items()},
    **{_plain(title): key for key, titles in _KNOWN.items() for title in titles.split(",")},
}


@lru_cache(maxsize=4096)
def key_of_title(title: object) -> Key | None:
    """The key for which a column with this title is taken; None if the title is not known."""
    if not isinstance(title, str) or not title or len(title) > 80:
        return None
    plain = _plain(title)
    found = _BY_TITLE.get(plain)
    if found is None and plain:
        # "Register No." and "Einheit/Unit" are known by their parts.
        halves = [half for half in re.split(r"\s*/\s*|\s+no$", plain) if half]
        keys = {_BY_TITLE.get(half) for half in halves} - {None}
        found = keys.pop() if len(keys) == 1 else None
    return found


def says_hexadecimal(title: str) -> bool:
    """Whether a title says that the numbers below it are hexadecimal."""
    return re.search(r"\bhex", title.casefold()) is not None


def unit_in_title(title: str) -> str:
    """What stands in brackets behind a title, in small letters: "Length (bits)" -> "bits"; else an empty text."""
    found = re.search(r"[\[(]\s*([^\])]{1,16}?)\s*[\])]\s*$", title.casefold())
    return found[1] if found else ""
