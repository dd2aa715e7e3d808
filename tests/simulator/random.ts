/** Chance that is repeatable: the same name and seed give the same numbers on every computer with IEEE arithmetic. */
export type Random = {
  /** Evenly in [0, 1). */
  uniform(): number
  between(low: number, high: number): number
  /** Whole number in [0, n). */
  below(n: number): number
  chance(probability: number): boolean
  /** Standard normal. */
  normal(): number
  /** exp of a normal with mean 0 and that standard deviation: median 1. */
  logNormal(sd: number): number
  pick<T>(list: readonly T[]): T
  pickBy<T>(list: readonly T[], weight: (item: T) => number): T
  shuffled<T>(list: readonly T[]): T[]
}

/** 32-bit FNV-1a of the name, so that each use of chance has a stream of its own. */
const hashOf = (name: string): number => {
  let hash = 0x811c9dc5
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193)
  return hash >>> 0
}

/** Small fast counting generator (sfc32), public domain; 32 random bits a step. */
const sfc32 = (a0: number, b0: number, c0: number): (() => number) => {
  let a = a0 | 0
  let b = b0 | 0
  let c = c0 | 0
  let counter = 1
  const next = () => {
    const t = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = ((c << 21) | (c >>> 11)) + t
    return t >>> 0
  }
  for (let i = 0; i < 12; i++) next()
  return next
}

/** A stream for one purpose. Streams with other names or seeds are independent of it. */
export const randomFor = (seed: number, ...names: readonly (string | number)[]): Random => {
  const bits = sfc32(
    hashOf(`a|${names.join('|')}`),
    hashOf(`b|${names.join('|')}`),
    Math.imul(seed, 0x9e3779b1),
  )
  let spare: number | undefined
  const uniform = () => bits() / 4294967296
  /** Marsaglia's polar method: two normals a round. */
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare
      spare = undefined
      return kept
    }
    for (;;) {
      const u = 2 * uniform() - 1
      const v = 2 * uniform() - 1
      const s = u * u + v * v
      if (s >= 1 || s === 0) continue
      const scale = Math.sqrt((-2 * Math.log(s)) / s)
      spare = v * scale
      return u * scale
    }
  }
  const below = (n: number) => Math.floor(uniform() * n)
  const pick = <T>(list: readonly T[]): T => {
    if (list.length === 0) throw new Error(`Nothing to pick from (${names.join(' ')}).`)
    return list[below(list.length)] as T
  }
  return {
    uniform,
    normal,
    below,
    pick,
    between: (low, high) => low + (high - low) * uniform(),
    chance: (probability) => uniform() < probability,
    logNormal: (sd) => Math.exp(sd * normal()),
    pickBy: (list, weight) => {
      const weights = list.map(weight)
      let left = uniform() * weights.reduce((sum, w) => sum + w, 0)
      for (const [i, item] of list.entries()) {
        left -= weights[i] ?? 0
        if (left < 0) return item
      }
      return pick(list)
    },
    shuffled: (list) => {
      const out = [...list]
      for (let i = out.length - 1; i > 0; i--) {
        const j = below(i + 1)
        const kept = out[i] as (typeof out)[number]
        out[i] = out[j] as (typeof out)[number]
        out[j] = kept
      }
      return out
    },
  }
}
