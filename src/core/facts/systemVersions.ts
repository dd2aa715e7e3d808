import type { Confidence, FactSource } from '../source.ts'
import type { Generation } from './generations.ts'

const REQUIREMENTS: FactSource = {
  kind: 'vendor',
  text: 'Microsoft, Windows 11 requirements (2023-02-13), Hardware requirements',
}
const PROCESSORS: FactSource = {
  kind: 'vendor',
  text: 'Microsoft, Windows processor requirements, lists of supported Intel and AMD processors for Windows 11',
}

/** What the vendor of the system publishes as the least for its next version. */
export const NEXT_SYSTEM = {
  memoryGB: 4,
  driveGB: 64,
  trustModule: '2.0',
  source: REQUIREMENTS,
  processors: PROCESSORS,
  confidence: 'seen',
} as const satisfies {
  readonly memoryGB: number
  readonly driveGB: number
  readonly trustModule: string
  readonly source: FactSource
  readonly processors: FactSource
  readonly confidence: Confidence
}

/** How a generation stands on the vendor's lists: every desktop model of it, some, or none. */
export const LISTED = ['listed', 'partly listed', 'not listed'] as const
export type Listed = (typeof LISTED)[number]

export type SystemRow = {
  readonly listed: Listed
  /** Runs 64-bit systems. So does every generation of our table (vendors' product pages). */
  readonly bits: 64
  readonly confidence: Confidence
  /** Of a generation that is partly listed: which models are, and which are not. */
  readonly lookUp?: string
}

/** That lists begin with the 8th generation Core and the Ryzen 2000 was seen in print; single models were not. */
const yes = (confidence: Confidence): SystemRow => ({ listed: 'listed', bits: 64, confidence })
const no = (confidence: Confidence): SystemRow => ({ listed: 'not listed', bits: 64, confidence })
const partly = (lookUp: string): SystemRow => ({
  ...{ listed: 'partly listed', bits: 64, confidence: 'memory' },
  lookUp,
})

/**
 * The vendor's lists by generation, desktop models only. The lists name models; a generation stands here as `listed`
 * where its desktop models are on it, and as `not listed` where none is. Later generations than the newest list count
 * as on it, which the vendor says itself. The graphics models of the Ryzen 2000 and the Athlon 200 are of the first
 * Zen design and are missing there, whatever their number.
 */
export const SYSTEM_PROCESSORS: Readonly<Record<Generation, SystemRow>> = {
  '4th (Haswell)': no('seen'),
  "4th refresh (Haswell Refresh, Devil's Canyon)": no('seen'),
  '5th (Broadwell)': no('seen'),
  '6th (Skylake)': no('seen'),
  // Exceptions of the 7th generation are for other sockets: Core X, and one laptop model (seen in print).
  '7th (Kaby Lake)': no('seen'),
  '8th (Coffee Lake)': yes('seen'),
  '9th (Coffee Lake Refresh)': yes('seen'),
  '10th (Comet Lake)': yes('seen'),
  '11th (Rocket Lake)': yes('seen'),
  '12th (Alder Lake)': yes('seen'),
  '13th (Raptor Lake)': yes('seen'),
  '14th (Raptor Lake Refresh)': yes('memory'),
  'Core Ultra 200S (Arrow Lake)': yes('memory'),
  'FX (AM3+)': no('seen'),
  'A-series / Athlon X4 (FM2+)': no('seen'),
  'A-series / Athlon X4 (Bristol Ridge)': no('seen'),
  'Athlon 200GE-3000G': partly('the Athlon 3000G is on the list, the 200GE, 220GE and 240GE are not'),
  'Ryzen 1000 (Zen)': no('seen'),
  'Ryzen 2000 (Zen+)': yes('seen'),
  'Ryzen 2000G (Raven Ridge)': no('memory'),
  'Ryzen 3000 (Zen 2)': yes('seen'),
  'Ryzen 3000G (Picasso)': yes('memory'),
  'Ryzen 4000G, 4100, 4500 (Zen 2)': yes('memory'),
  'Ryzen 5000 (Zen 3)': yes('seen'),
  'Ryzen 5000G, 5500, 5700 (Zen 3)': yes('memory'),
  'Ryzen 7000 (Zen 4)': yes('seen'),
  'Ryzen 8000G (Phoenix)': yes('memory'),
  'Ryzen 9000 (Zen 5)': yes('memory'),
}
