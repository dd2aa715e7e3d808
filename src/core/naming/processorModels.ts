import type { Generation } from '../facts/generations.ts'
import { hasGraphicsUnit } from '../facts/graphicsUnits.ts'

/**
 * Models of one family and generation. `10400/F/T` stands for 10400, 10400F and 10400T: whole numbers only, so a
 * number that nobody published is read as nothing.
 */
type ModelRow = {
  readonly family: string
  readonly generation: Generation
  readonly models: string
}

/** Rows of one generation. */
const rows = (generation: Generation, models: Readonly<Record<string, string>>) =>
  Object.entries(models).map(([family, list]): ModelRow => ({ family, generation, models: list }))

/**
 * Intel desktop processors by number (Intel product pages; the lists from memory, the generations as in
 * facts/processors). Left out on purpose: mobile and soldered models, LGA2011 and LGA2066 (i7-5820K, i7-6800K, i7-7740X,
 * i9-9900X), embedded E and TE models.
 */
const INTEL: readonly ModelRow[] = [
  ...rows('4th (Haswell)', {
    i3: '4130/T 4330/T 4340',
    i5: '4430/S 4440/S 4570/S/T 4670/K/S/T',
    i7: '4765T 4770/K/S/T 4771',
    Pentium: 'G3220/T G3420/T G3430',
    Celeron: 'G1820/T G1830',
  }),
  ...rows("4th refresh (Haswell Refresh, Devil's Canyon)", {
    i3: '4150/T 4160/T 4170/T 4350/T 4360/T 4370/T',
    i5: '4460/S/T 4590/S/T 4690/K/S/T',
    i7: '4785T 4790/K/S/T',
    Pentium: 'G3240/T G3250/T G3258 G3260/T G3440/T G3450/T G3460/T G3470',
    Celeron: 'G1840/T G1850',
  }),
  ...rows('5th (Broadwell)', { i5: '5675C', i7: '5775C' }),
  ...rows('6th (Skylake)', {
    i3: '6098P 6100/T 6300/T 6320',
    i5: '6400/T 6402P 6500/T 6600/K/T',
    i7: '6700/K/T',
    Pentium: 'G4400/T G4500/T G4520',
    Celeron: 'G3900/T G3920',
  }),
  // Pentium and Celeron count on their own: G4560 is a 7th and G4520 a 6th, though both begin with G45.
  ...rows('7th (Kaby Lake)', {
    i3: '7100/T 7300/T 7320 7350K',
    i5: '7400/T 7500/T 7600/K/T',
    i7: '7700/K/T',
    Pentium: 'G4560/T G4600/T G4620',
    Celeron: 'G3930/T G3950',
  }),
  ...rows('8th (Coffee Lake)', {
    i3: '8100/T 8300/T 8350K',
    i5: '8400/T 8500/T 8600/K/T',
    i7: '8086K 8700/K/T',
    Pentium: 'G5400/T G5500/T G5600/T',
    Celeron: 'G4900/T G4920',
  }),
  ...rows('9th (Coffee Lake Refresh)', {
    i3: '9100/F/T 9300/T 9320 9350K/KF',
    i5: '9400/F/T 9500/F/T 9600/K/KF/T',
    i7: '9700/F/K/KF/T',
    i9: '9900/K/KF/KS/T',
    Pentium: 'G5420/T G5600F G5620',
    Celeron: 'G4930/T G4950',
  }),
  // i3-10105, G6405 and the like were sold beside the 11th generation and belong to the 10th.
  ...rows('10th (Comet Lake)', {
    i3: '10100/F/T 10105/F/T 10300/T 10305/T 10320 10325',
    i5: '10400/F/T 10500/T 10505 10600/K/KF/T',
    i7: '10700/F/K/KF/T',
    i9: '10850K 10900/F/K/KF/T',
    Pentium: 'G6400/T G6405/T G6500/T G6505/T G6600 G6605',
    Celeron: 'G5900/T G5905/T G5920 G5925',
  }),
  ...rows('11th (Rocket Lake)', {
    i5: '11400/F/T 11500/T 11600/K/KF/T',
    i7: '11700/F/K/KF/T',
    i9: '11900/F/K/KF/T',
  }),
  ...rows('12th (Alder Lake)', {
    i3: '12100/F/T 12300/T',
    i5: '12400/F/T 12490F 12500/T 12600/K/KF/T',
    i7: '12700/F/K/KF/T',
    i9: '12900/F/K/KF/KS/T',
    Pentium: 'G7400/T',
    Celeron: 'G6900/T',
  }),
  ...rows('13th (Raptor Lake)', {
    i3: '13100/F/T',
    i5: '13400/F/T 13490F 13500/T 13600/K/KF/T',
    i7: '13700/F/K/KF/T 13790F',
    i9: '13900/F/K/KF/KS/T',
  }),
  ...rows('14th (Raptor Lake Refresh)', {
    'Processor 300': '300/T',
    i3: '14100/F/T',
    i5: '14400/F/T 14490F 14500/T 14600/K/KF/T',
    i7: '14700/F/K/KF/T 14790F',
    i9: '14900/F/K/KF/KS/T',
  }),
  ...rows('Core Ultra 200S (Arrow Lake)', {
    'Ultra 5': '225/F/T 235/T 245/K/KF/T',
    'Ultra 7': '265/F/K/KF/T',
    'Ultra 9': '285/K/T',
  }),
]

/**
 * AMD desktop processors by model number (AMD product pages; the lists from memory, the generations as in
 * facts/processors). The number alone does not tell the generation: 4100, 4500, 5500 and 5700 without X are chips of
 * the G models without their graphics; 2200G, 2400G, 3200G and 3400G are a generation older than their number says.
 * Left out on purpose: 2600E and 2700E, whose published memory rate differs from their row; 8300GE and 8500GE, whose
 * row is not known; FM2 models (A10-6800K), Carrizo on FM2+ (Athlon X4 845), whose link is narrower than their row says.
 */
const AMD: readonly ModelRow[] = [
  ...rows('FX (AM3+)', {
    FX: '4100 4130 4170 4300 4320 4350 6100 6120 6200 6300 6350 8100 8120 8150 8300 8310 8320/E 8350 8370/E 9370 9590',
  }),
  ...rows('A-series / Athlon X4 (FM2+)', {
    A6: '7400K',
    A8: '7600 7650K 7670K',
    A10: '7700K 7800 7850K 7860K 7870K 7890K',
  }),
  ...rows('A-series / Athlon X4 (FM2+)', { 'Athlon X4': '830 840 860K 870K 880K' }),
  ...rows('A-series / Athlon X4 (Bristol Ridge)', {
    A6: '9500/E 9550',
    A8: '9600',
    A10: '9700/E',
    A12: '9800/E',
  }),
  ...rows('A-series / Athlon X4 (Bristol Ridge)', { 'Athlon X4': '940 950 970' }),
  ...rows('Athlon 200GE-3000G', {
    Athlon: '200GE 220GE 240GE 3000G',
    'Athlon Silver': '3050GE',
  }),
  ...rows('Ryzen 1000 (Zen)', {
    'Ryzen 3': '1200 1300X',
    'Ryzen 5': '1400 1500X 1600/X',
    'Ryzen 7': '1700/X 1800X',
  }),
  ...rows('Ryzen 2000 (Zen+)', {
    'Ryzen 3': '2300X',
    'Ryzen 5': '2500X 2600/X',
    'Ryzen 7': '2700/X',
  }),
  ...rows('Ryzen 2000G (Raven Ridge)', { 'Ryzen 3': '2200G/GE', 'Ryzen 5': '2400G/GE' }),
  ...rows('Ryzen 3000G (Picasso)', {
    'Ryzen 3': '3200G/GE',
    'Ryzen 5': '3350G/GE 3400G/GE',
    'Athlon Gold': '3150G/GE',
  }),
  ...rows('Ryzen 3000 (Zen 2)', {
    'Ryzen 3': '3100 3300X',
    'Ryzen 5': '3500/X 3600/X/XT',
    'Ryzen 7': '3700X 3800X/XT',
    'Ryzen 9': '3900/X/XT 3950X',
  }),
  ...rows('Ryzen 4000G, 4100, 4500 (Zen 2)', {
    'Ryzen 3': '4100 4300G/GE 4350G/GE',
    'Ryzen 5': '4500 4600G/GE 4650G/GE',
    'Ryzen 7': '4700G/GE 4750G/GE',
  }),
  ...rows('Ryzen 5000 (Zen 3)', {
    'Ryzen 5': '5600/T/X/X3D/XT',
    'Ryzen 7': '5700X/X3D 5800/X/X3D/XT',
    'Ryzen 9': '5900/X/XT 5950X',
  }),
  ...rows('Ryzen 5000G, 5500, 5700 (Zen 3)', {
    'Ryzen 3': '5300G/GE 5350G/GE',
    'Ryzen 5': '5500/GT 5600G/GE/GT 5650G/GE',
    'Ryzen 7': '5700/G/GE 5750G/GE',
  }),
  ...rows('Ryzen 7000 (Zen 4)', {
    'Ryzen 5': '7400F 7500F 7600/X/X3D',
    'Ryzen 7': '7700/X 7800X3D',
    'Ryzen 9': '7900/X/X3D 7950X/X3D',
  }),
  ...rows('Ryzen 8000G (Phoenix)', {
    'Ryzen 3': '8300G',
    'Ryzen 5': '8400F 8500G 8600G',
    'Ryzen 7': '8700F/G',
  }),
  ...rows('Ryzen 9000 (Zen 5)', {
    'Ryzen 5': '9600/X',
    'Ryzen 7': '9700X 9800X3D',
    'Ryzen 9': '9900X/X3D 9950X/X3D',
  }),
]

export type Model = {
  readonly vendor: 'Intel' | 'AMD'
  readonly family: string
  /** `10400F`, `G4560`, `245K` */
  readonly number: string
  /** As its maker writes it: `i5-10400F`, `Ryzen 5 5600X`, `Pentium G4560`. */
  readonly name: string
  readonly generation: Generation
  /** Undefined where nothing tells. */
  readonly ownGraphics: boolean | undefined
}

const nameOf = (family: string, number: string): string => {
  if (family === 'Processor 300') return number.replace('300', 'Processor 300')
  return /^(?:i\d|A\d+|FX)$/.test(family) ? `${family}-${number}` : `${family} ${number}`
}

const modelsOf = (vendor: Model['vendor']) => (row: ModelRow) =>
  row.models.split(' ').flatMap((entry) => {
    const [first = '', ...suffixes] = entry.split('/')
    const digits = /^G?\d+/.exec(first)?.[0] ?? ''
    return [first, ...suffixes.map((suffix) => digits + suffix)].map((number): Model => {
      const { family, generation } = row
      const ownGraphics = hasGraphicsUnit(generation, family, number.slice(digits.length))
      return { vendor, family, number, name: nameOf(family, number), generation, ownGraphics }
    })
  })

/** Every processor we can read from its name, one entry a model. */
export const MODELS: readonly Model[] = [...INTEL.flatMap(modelsOf('Intel')), ...AMD.flatMap(modelsOf('AMD'))]
