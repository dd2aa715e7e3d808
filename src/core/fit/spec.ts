import type { Part, PartKind } from '../part.ts'
import type { Missing, Value } from './finding.ts'

/** A figure of a part's data sheet on its way into a rule, with the words to ask for it where it is not there. */
export type Spec<T extends Value = Value> = { readonly value: T | undefined; readonly missing: Missing }

/** What a rule takes from data sheets, by the name under which it compares it. A list has one entry a part. */
export type Specs = Readonly<Record<string, Spec | readonly Spec[]>>

/** The same figures once all of them are there. */
export type Known<S> = {
  readonly [N in keyof S]: S[N] extends Spec<infer T>
    ? T
    : S[N] extends readonly Spec<infer T>[]
      ? readonly T[]
      : never
}

/** The single figures: those that a finding can show although others are missing. */
export type Shown<S> = {
  readonly [N in keyof S as S[N] extends Spec ? N : never]: S[N] extends Spec<infer T> ? T : never
}

/** One figure of one part; `kind` is what to ask for when the machine has no such part on record. */
export function spec<P extends Part, K extends keyof P & string>(
  part: P | undefined,
  kind: P['kind'],
  name: K,
): Spec<Extract<P[K], Value>> {
  if (part === undefined) return { value: undefined, missing: absent(kind) }
  const value = part[name]
  return {
    value: isUsable(value) && value !== 0 ? (value as Extract<P[K], Value>) : undefined,
    missing: { spec: name, partId: part.id, partName: part.name },
  }
}

/** A figure that is no part's: the shop's policy, or the 0 W of a card that is not there. */
export const given = <T extends Value>(value: T, name: string): Spec<T> => ({
  value,
  missing: { spec: name, partId: 'policy', partName: 'shop policy' },
})

const absent = (kind: PartKind): Missing => ({ spec: kind, partId: kind, partName: kind })

/**
 * True for a value a rule may compare. Not a number, infinite and negative are no measure of anything in a machine,
 * and comparing them answers "false", which often reads as "fine". Looks into plugs and lists.
 */
export function isUsable(value: unknown): boolean {
  if (value === undefined || value === null) return false
  if (typeof value === 'number') return Number.isFinite(value) && value >= 0
  if (typeof value === 'object') return Object.values(value).every(isUsable)
  return typeof value !== 'string' || value.trim() !== ''
}
