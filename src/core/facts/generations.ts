/**
 * Processor generations by the name under which chipsets support them, with the pins they have. Equal pins are not
 * enough: LGA1151 holds two families that exclude each other (Intel product pages), so support is looked up by
 * chipset, never by socket.
 */
export const GENERATIONS = {
  '4th (Haswell)': 'LGA1150',
  "4th refresh (Haswell Refresh, Devil's Canyon)": 'LGA1150',
  '5th (Broadwell)': 'LGA1150',
  '6th (Skylake)': 'LGA1151',
  '7th (Kaby Lake)': 'LGA1151',
  '8th (Coffee Lake)': 'LGA1151',
  '9th (Coffee Lake Refresh)': 'LGA1151',
  '10th (Comet Lake)': 'LGA1200',
  '11th (Rocket Lake)': 'LGA1200',
  '12th (Alder Lake)': 'LGA1700',
  '13th (Raptor Lake)': 'LGA1700',
  '14th (Raptor Lake Refresh)': 'LGA1700',
  'Core Ultra 200S (Arrow Lake)': 'LGA1851',
  'FX (AM3+)': 'AM3+',
  'A-series / Athlon X4 (FM2+)': 'FM2+',
  'A-series / Athlon X4 (Bristol Ridge)': 'AM4',
  'Athlon 200GE-3000G': 'AM4',
  'Ryzen 1000 (Zen)': 'AM4',
  'Ryzen 2000 (Zen+)': 'AM4',
  'Ryzen 2000G (Raven Ridge)': 'AM4',
  'Ryzen 3000 (Zen 2)': 'AM4',
  'Ryzen 3000G (Picasso)': 'AM4',
  'Ryzen 4000G, 4100, 4500 (Zen 2)': 'AM4',
  'Ryzen 5000 (Zen 3)': 'AM4',
  'Ryzen 5000G, 5500, 5700 (Zen 3)': 'AM4',
  'Ryzen 7000 (Zen 4)': 'AM5',
  'Ryzen 8000G (Phoenix)': 'AM5',
  'Ryzen 9000 (Zen 5)': 'AM5',
} as const

export type Generation = keyof typeof GENERATIONS
export type Socket = (typeof GENERATIONS)[Generation]

export const GENERATION_NAMES = Object.keys(GENERATIONS) as Generation[]

const shortName = (name: string): string => name.replace(/ \(.*/, '')

/**
 * Finds a generation by its full name or by the part before the bracket (`10th`), ignoring case.
 * A short name that two generations share finds none.
 */
export const generationNamed = (text: string | undefined): Generation | undefined =>
  text === undefined ? undefined : byText.get(text.trim().toLowerCase())

/** Full names, and short ones that only one generation has. */
const byText: ReadonlyMap<string, Generation> = new Map([
  ...GENERATION_NAMES.filter(isOnlyOne).map((name) => [shortName(name).toLowerCase(), name] as const),
  ...GENERATION_NAMES.map((name) => [name.toLowerCase(), name] as const),
])

function isOnlyOne(name: Generation): boolean {
  return GENERATION_NAMES.every((other) => other === name || shortName(other) !== shortName(name))
}
