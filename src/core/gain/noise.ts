/**
 * How far repeated measurements scatter, as standard deviations of the natural log of the frame rate. General
 * knowledge set from memory, taken from no product; to be replaced by the shop's own repeats once there are enough.
 */
export const NOISE = {
  /** One run against another of the same machine, route and setting. */
  oneRunSd: 0.02,
  /** One machine against another with the same parts (cooling, memory timings, samples of a chip). */
  machineSd: 0.015,
} as const

/** Two repeats further apart than this in log frame time disagree (about 15 %): one of them is spoilt. */
export const REPEATS_AGREE_LOG = 0.15

/**
 * Half width of the interval that holds four of five results, in standard deviations. A little less than the normal
 * 1.2816: calibrated on simulated shops, whose errors had more in the middle and heavier tails.
 */
export const FOUR_OF_FIVE_SD = 1.2

/** How much the errors of one option correlate between titles; calibrated on simulated shops. */
export const TITLE_CORRELATION = 0.2
