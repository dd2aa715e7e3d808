/*
 * Every figure the model starts from, in one table. General knowledge set from memory before any experiment; taken from
 * no product. Logs are natural, of frame times in ms. The shop's own runs take over as they come in: a class of
 * coefficients learns its mean and its spread from the titles (see scales.ts).
 */

/** A coefficient that every title has for itself: its mean over titles ~ N(m, ms^2), a title ~ N(mean, s0^2). */
export type KindPrior = {
  readonly m: number
  readonly ms: number
  readonly s0: number
  /** How many titles the prior spread is worth. */
  readonly nu0: number
}

export type Spread = { readonly s0: number; readonly nu0: number }

const kind = (m: number, ms: number, s0: number, nu0: number): KindPrior => ({ m, ms, s0, nu0 })
const spread = (s0: number, nu0: number): Spread => ({ s0, nu0 })

type Table<T> = Readonly<Record<string, T>>

export type Priors = {
  readonly kinds: Table<KindPrior>
  readonly upscalers: Table<KindPrior>
  readonly otherUpscaler: KindPrior
  readonly otherPresetProcessor: KindPrior
  readonly otherPresetGraphics: KindPrior
  readonly lowered: KindPrior
  readonly interactions: Table<Spread>
  readonly parts: {
    readonly processor: number
    readonly card: number
    readonly processorNominal: Spread
    readonly cardNominal: Spread
    readonly cardRt: number
    readonly cardPixels: number
    readonly processorVariant: number
    readonly cardVariant: number
    readonly nominalSlope: { readonly m: number; readonly ms: number }
  }
  readonly tau: Spread & { readonly least: number; readonly most: number }
  readonly alike: number
  readonly sigma: Spread
  readonly machineSd: number
  readonly ageSdPerRootYear: number
  readonly calibration: number
  readonly nuRuns: number
  readonly nuInteractions: number
  readonly empiricalBayes: boolean
}

export const PRIORS: Priors = {
  kinds: {
    /* Processor side. */
    alpha: kind(Math.log(7), 0.5, 0.4, 4),
    /** Per ln(reference rate / rate). */
    rate: kind(0.2, 0.1, 0.08, 10),
    /** One memory channel. */
    single: kind(0.12, 0.06, 0.05, 10),
    /** Per share of the wanted memory that is missing. */
    ramDef: kind(0.6, 0.4, 0.25, 10),
    cLow: kind(-0.08, 0.06, 0.05, 10),
    cMedium: kind(-0.04, 0.04, 0.03, 10),
    cUltra: kind(0.06, 0.05, 0.05, 10),
    cRt: kind(0.2, 0.12, 0.1, 10),
    /* Graphics side. */
    beta: kind(Math.log(9), 0.7, 0.5, 4),
    /** Per ln(pixels / (1920 x 1080)). */
    pix: kind(0.8, 0.15, 0.1, 10),
    gLow: kind(-0.6, 0.25, 0.15, 8),
    gMedium: kind(-0.25, 0.15, 0.1, 8),
    gUltra: kind(0.3, 0.15, 0.12, 8),
    gRt: kind(0.5, 0.25, 0.2, 8),
    /** What is missing is fetched over the link: per log of how much longer a usual frame takes for it; see terms.ts. */
    linkShort: kind(1, 0.5, 0.4, 10),
    /** Per share of the wanted graphics memory that is missing, beyond that. */
    vramDef: kind(0, 0.3, 0.3, 10),
    /** A link narrower than the card's own, with memory enough: some 1 to 3 % a halving (common practice). */
    linkNarrow: kind(0.025, 0.025, 0.02, 10),
    /** Large BAR on instead of off. */
    largeBar: kind(-0.03, 0.03, 0.03, 10),
    /* How sharply the longer side wins. */
    logp: kind(Math.log(7), 0.4, 0.35, 20),
  },
  /** Graphics side, by the shop's name of the mode. */
  upscalers: {
    quality: kind(-0.45, 0.15, 0.12, 8),
    balanced: kind(-0.58, 0.17, 0.13, 8),
    performance: kind(-0.7, 0.2, 0.15, 8),
    'ultra performance': kind(-0.9, 0.25, 0.18, 8),
  },
  otherUpscaler: kind(-0.5, 0.3, 0.15, 8),
  /** Presets of other names than low, medium, high, ultra, against high. */
  otherPresetProcessor: kind(0, 0.07, 0.05, 10),
  otherPresetGraphics: kind(0, 0.35, 0.15, 8),
  /** One slider set lower. */
  lowered: kind(-0.08, 0.1, 0.08, 8),
  /** What is one title's own, without a mean over titles; `phi` and `gam` have the part's own effect as their mean. */
  interactions: {
    phi: spread(0.06, 10),
    gam: spread(0.08, 10),
    gamRt: spread(0.1, 10),
    delta: spread(0.05, 10),
    /** Per ln pixels. */
    gamPixels: spread(0.05, 10),
    /** Of all cards with one memory size, at all pictures and at those that want as much. */
    vram: spread(0.05, 10),
    vramAt: spread(0.04, 10),
    /** Drift from one version of a title to the next. */
    driftA: spread(0.04, 10),
    driftB: spread(0.04, 10),
    sceneA: spread(0.15, 10),
    sceneB: spread(0.15, 10),
  },
  /** Effects that parts have in all titles. */
  parts: {
    processor: 0.2,
    card: 0.5,
    /** Spread around what a nominal figure says. */
    processorNominal: spread(0.1, 6),
    cardNominal: spread(0.15, 6),
    cardRt: 0.15,
    /** Per ln pixels: a wide card is not kept busy by few, a narrow memory is slowed by many. */
    cardPixels: 0.06,
    /** A part under another power limit, or a processor beside another memory type, against the same part. */
    processorVariant: 0.1,
    cardVariant: 0.1,
    /** Log frame time per log of nominal figure, turned round. */
    nominalSlope: { m: 1, ms: 0.3 },
  },
  /** What the formula gets wrong in one cell. */
  tau: { s0: 0.03, nu0: 20, least: 0.02, most: 0.12 },
  /** Share of that variance that cells have in common which differ in memory or link alone. */
  alike: 0.97,
  /** One run against another of the same machine. */
  sigma: spread(0.02, 10),
  /** One machine against another with the same parts. */
  machineSd: 0.015,
  /** Drivers, the system and patches nobody noted: per root of a year beyond the shop's window. */
  ageSdPerRootYear: 0.04,
  /**
   * Spread of a gain as told over spread as computed, which is a little too wide: tuned on simulated shops, seeds 101 to
   * 103, so that 80 % intervals of 1.2 spreads hold 76 to 88 % at every size.
   */
  calibration: 0.83,
  /** Degrees of freedom of run noise and of interactions: a spoilt run, a bad driver in one title. */
  nuRuns: 4,
  nuInteractions: 4,
  /** More rounds gained nothing and made intervals too narrow. */
  empiricalBayes: true,
}

/** Graphics memory that a preset wants, against high; common practice, from memory. Others count as high. */
export const GRAPHICS_MEMORY_SHARE: Readonly<Record<string, number>> = {
  low: 0.75,
  medium: 0.9,
  high: 1,
  ultra: 1.15,
}
/** It grows with the picture: `(pixels / 1080p)^0.25`. */
export const GRAPHICS_MEMORY_BY_PIXELS = 0.25

/** Memory rate a type is compared with, in MT/s: a usual rate of it, about the middle of what JEDEC lists. */
export const REFERENCE_RATE_MTS: Readonly<Record<string, number>> = {
  DDR3: 1600,
  DDR3L: 1600,
  DDR4: 3200,
  DDR5: 5600,
}

/** Link that `linkShort` is counted from: generation 4, 16 lanes. */
export const REFERENCE_LINK = { gen: 4, lanes: 16 } as const
