import type { PartKind } from '../../core/part.ts'
import type { Gloss } from '../gloss.ts'

/** By which words of an owner a kind is asked for; whole words, small letters. These are read and never said. */
export const ASKED_BY_EN: Readonly<Partial<Record<PartKind, readonly string[]>>> = {
  processor: ['processor', 'processors', 'cpu'],
  memory: ['memory', 'ram', 'modules'],
  card: ['card', 'cards', 'gpu'],
  board: ['new board', 'other board', 'mainboard', 'motherboard'],
}

/** Trade words that findings use, each with six words or fewer. */
export const GLOSSES_EN: readonly Gloss[] = [
  { firmware: 'the board’s start-up program', Firmware: 'the board’s start-up program' },
  { chipset: 'the board’s controller chip', Chipset: 'the board’s controller chip' },
  { socket: 'where the processor plugs in', Socket: 'where the processor plugs in' },
  { 'MT/s': 'million transfers a second' },
  { 'GB/s': 'billion bytes a second' },
  { lanes: 'data roads to a card', lane: 'one data road to a card' },
  { channels: 'roads to memory', channel: 'a road to memory' },
  { modules: 'sticks of memory', module: 'one stick of memory' },
  { 'trust module': 'a chip that keeps keys' },
]
