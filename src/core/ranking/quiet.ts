import { type Build, type Change, partsOf } from '../build.ts'
import { byText } from '../gain/cellOf.ts'
import type { Part, PartKind } from '../part.ts'
import type { Wish } from '../question.ts'
import type { ShopPolicy } from '../shop.ts'

/** A run in which the shop noted how loud the whole machine was, at one metre, and what made the sound. */
export type SoundReading = {
  readonly runId: string
  readonly at: string
  /** Absent: on a test bench. */
  readonly machineTag?: string | undefined
  readonly dba: number
  /** What was in it of HEARD_KINDS; of a test bench the processor and the card alone are known. */
  readonly partIds: readonly string[]
}

/** How loud machines with a part were. A reading is of a whole machine, never of a part alone. */
export type PartSound = {
  readonly partId: string
  readonly lowestDba: number
  readonly highestDba: number
  readonly runIds: readonly string[]
}

/** What the wish for a quiet machine is held against. */
export type Sound = {
  /** The shop's own figure; absent where it set none. */
  readonly quietDba?: number | undefined
  /** The machine's own last reading with what is in it today; absent where it was never measured so. */
  readonly own?: Pick<SoundReading, 'runId' | 'at' | 'dba'> | undefined
  readonly parts: readonly PartSound[]
}

/** Kinds that make a sound themselves, and that a run tells by name. */
const SOUND_KINDS: readonly PartKind[] = ['card', 'cooler', 'fan']

/** Kinds that change what is heard: a hotter processor, a supply's fan, a case's walls. No run tells their share. */
const SHARING_KINDS: readonly PartKind[] = ['processor', 'supply', 'case']

/** Kinds of part by which one machine is as loud as another. */
export const HEARD_KINDS: readonly PartKind[] = [...SOUND_KINDS, ...SHARING_KINDS]

/**
 * What readings say to a wish for quiet in one machine; undefined where the owner has no such wish. The machine's own
 * reading is the last one with the very parts in it that are heard today. `readings` in any order.
 */
export function soundOf(
  { tag, build }: { readonly tag: string; readonly build: Build },
  wishes: readonly Wish[],
  readings: readonly SoundReading[],
  parts: readonly Part[],
  { quietDba }: Pick<ShopPolicy, 'quietDba'>,
): Sound | undefined {
  if (!wishes.includes('quiet')) return undefined
  const today = keyOf(
    partsOf(build)
      .filter(({ kind }) => HEARD_KINDS.includes(kind))
      .map(({ id }) => id),
  )
  const inOrder = [...readings].sort((a, b) => byText(a.at, b.at) || byText(a.runId, b.runId))
  const own = inOrder.findLast(({ machineTag, partIds }) => machineTag === tag && keyOf(partIds) === today)
  const named = parts.filter(({ kind }) => SOUND_KINDS.includes(kind)).map(({ id }) => id)
  const offered = [...new Set(named)].sort(byText)
  return {
    ...(quietDba !== undefined && { quietDba }),
    ...(own !== undefined && { own: { runId: own.runId, at: own.at, dba: own.dba } }),
    parts: offered.flatMap((partId): PartSound[] => {
      const among = inOrder.filter(({ partIds }) => partIds.includes(partId))
      if (among.length === 0) return []
      const levels = among.map(({ dba }) => dba)
      const runIds = among.map(({ runId }) => runId)
      return [{ partId, lowestDba: Math.min(...levels), highestDba: Math.max(...levels), runIds }]
    }),
  }
}

const keyOf = (ids: readonly string[]): string => [...ids].sort(byText).join('\n')

/**
 * The level above which a part is too loud: what the shop calls quiet, or what the owner's machine is already where that is
 * louder, since a part that makes it quieter is no breach of the wish. Undefined where neither is known: nothing is too loud then.
 */
export function tooLoudAbove({ quietDba, own }: Sound): number | undefined {
  const known = [quietDba, own?.dba].filter((dba) => dba !== undefined)
  return known.length === 0 ? undefined : Math.max(...known)
}

export const soundOfPart = ({ parts }: Sound, id: string): PartSound | undefined =>
  parts.find(({ partId }) => partId === id)

/** Whether a part was measured, and even the quietest machine with it was too loud. Never so without a measurement. */
export function isTooLoud({ id, kind }: Pick<Part, 'id' | 'kind'>, sound: Sound | undefined): boolean {
  if (sound === undefined || !SOUND_KINDS.includes(kind)) return false
  const above = tooLoudAbove(sound)
  const told = soundOfPart(sound, id)
  return above !== undefined && told !== undefined && told.lowestDba > above
}

/** What can be said of how loud a machine is after a change. */
export type SoundAfter = {
  /** New parts that machines were measured with. */
  readonly measured: readonly PartSound[]
  /** New parts of which nobody can tell what they change. */
  readonly untoldIds: readonly string[]
}

/** Undefined where nothing that is heard goes in: memory, a drive, a setting. */
export function soundAfter({ add }: Pick<Change, 'add'>, sound: Sound): SoundAfter | undefined {
  const heard = add.filter(({ kind }) => HEARD_KINDS.includes(kind))
  if (heard.length === 0) return undefined
  const measured = heard
    .filter(({ kind }) => SOUND_KINDS.includes(kind))
    .flatMap(({ id }) => soundOfPart(sound, id) ?? [])
  const told = new Set(measured.map(({ partId }) => partId))
  return { measured, untoldIds: heard.map(({ id }) => id).filter((id) => !told.has(id)) }
}
