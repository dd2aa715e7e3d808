import type { PartKind } from '../../core/part.ts'
import type { Gloss } from '../gloss.ts'

/** By which words of an owner a kind is asked for; small letters; these are read and never said. */
export const ASKED_BY_DE: Readonly<Partial<Record<PartKind, readonly string[]>>> = {
  processor: ['prozessor', 'prozessoren', 'cpu'],
  memory: ['speicher', 'arbeitsspeicher', 'ram', 'module'],
  card: ['karte', 'karten', 'grafikkarte', 'grafikkarten', 'gpu'],
  board: ['neues mainboard', 'anderes mainboard', 'mainboard', 'hauptplatine'],
}

/** Trade words, each with six words or fewer. */
export const GLOSSES_DE: readonly Gloss[] = [
  { Firmware: 'das BIOS des Mainboards' },
  { Chipsatz: 'der Steuerchip des Mainboards' },
  { Sockel: 'wo der Prozessor steckt' },
  { 'MT/s': 'Millionen Übertragungen pro Sekunde' },
  { 'GB/s': 'Milliarden Byte pro Sekunde' },
  { Datenwege: 'Leitungen zur Karte, auch Lanes genannt' },
  { Kanäle: 'Wege zum Speicher', Kanälen: 'Wege zum Speicher', Kanal: 'ein Weg zum Speicher' },
  { Module: 'Speicherriegel', Modulen: 'Speicherriegel', Modul: 'ein Speicherriegel' },
  { Vertrauensmodul: 'ein Chip, der Schlüssel verwahrt' },
]
