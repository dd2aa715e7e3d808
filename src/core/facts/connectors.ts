import type { Confidence, FactSource } from '../source.ts'
import { SOURCES } from './sources.ts'

export type Connector = {
  readonly name: string
  /** Sustained power in watts. */
  readonly sustainedW: number
  readonly source: FactSource
  readonly confidence: Confidence
  readonly note?: string
}

/**
 * What slot and plugs may carry. The 16-pin plug has no one figure: its supply grants 150, 300, 450 or 600 W, and
 * which of them is printed on supply or plug, so 600 W here is the most it can be, never what a machine has.
 */
export const CONNECTORS = {
  slot: { name: 'graphics slot', sustainedW: 75, source: SOURCES.pcieCem, confidence: 'seen' },
  pin6: { name: '6-pin', sustainedW: 75, source: SOURCES.atx3, confidence: 'seen' },
  pin8: { name: '8-pin', sustainedW: 150, source: SOURCES.atx3, confidence: 'seen' },
  pin16: {
    name: '16-pin',
    sustainedW: 600,
    source: SOURCES.atx3,
    confidence: 'seen',
    note: 'at most; 150, 300, 450 or 600 W as printed on the supply or the plug',
  },
  eps4: {
    name: '4-pin processor plug',
    sustainedW: 192,
    source: { kind: 'common practice', text: 'two 12 V contacts of 8 A each' },
    confidence: 'seen',
  },
  eps8: {
    name: '8-pin processor plug',
    sustainedW: 384,
    source: { kind: 'common practice', text: 'four 12 V contacts of 8 A each' },
    confidence: 'memory',
  },
} as const satisfies Record<string, Connector>
