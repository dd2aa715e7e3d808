import type { LimitKey } from '../../core/limits/limit.ts'
import type { Verdict } from '../../core/verdict.ts'
import { sayLimit } from '../limits.ts'
import { fill } from '../say.ts'
import type { Context } from './context.ts'

type Row = {
  readonly key: string
  readonly verdict: Verdict
  readonly what: string
  readonly says: readonly string[]
}

/**
 * The machine's own limits that answer most later questions: memory, card length, cooler height, and what the board
 * never takes. A limit that is
 * not known reads "can't tell" with how to find it out; where a finding says so already, it is not said twice.
 */
export function limitRows(ctx: Context, toldMissing: ReadonlySet<LimitKey>): readonly Row[] {
  return [...memoryRow(ctx, toldMissing), ...cardRow(ctx, toldMissing), ...coolerRow(ctx), ...neverRow(ctx)]
}

const findOut = (ctx: Context, key: LimitKey): readonly string[] => {
  const said = sayLimit(key, ctx.answer.limits[key], ctx.figures).findOut
  return said === undefined ? [] : [said]
}

function memoryRow(ctx: Context, told: ReadonlySet<LimitKey>): readonly Row[] {
  const { limits } = ctx.answer
  const w = ctx.words.board
  const key = 'memoryMaxGB'
  if (!limits.memoryMaxGB.known || !limits.memoryType.known) {
    if (told.has('memoryMaxGB') || told.has('memoryType')) return []
    const open = limits.memoryType.known ? key : 'memoryType'
    return [
      {
        key,
        verdict: "can't tell",
        what: w.memoryUnknown,
        says: [w.memoryUnknownSays, ...findOut(ctx, open)],
      },
    ]
  }
  const values = {
    type: limits.memoryType.value,
    max: ctx.figures.named(key, limits.memoryMaxGB.value),
  }
  const isSplitOpen = !limits.memorySlots.known || told.has('memorySlots') || told.has('memoryPerSlotMaxGB')
  if (isSplitOpen) {
    const { source } = limits.memoryMaxGB.by
    const split = source === 'part' ? w.memorySplitPage : w.memorySplitSays
    return [{ key, verdict: "can't tell", what: fill(w.memorySplit, values), says: [fill(split, values)] }]
  }
  const says = limits.memorySlots.known ? ctx.some(w.memorySlots, limits.memorySlots.value) : w.memoryPlain
  return [{ key, verdict: 'fits', what: fill(w.memory, values), says: [says] }]
}

function cardRow(ctx: Context, told: ReadonlySet<LimitKey>): readonly Row[] {
  const room = ctx.answer.limits.cardRoomMm
  const w = ctx.words.board
  const key = 'cardRoomMm'
  if (!room.known) {
    if (told.has(key)) return []
    const shown = shownRoom(ctx)
    const values = { mm: shown === undefined ? '' : ctx.figures.named(key, shown) }
    const [what, says] =
      shown === undefined
        ? [w.cardRoomUnknown, w.cardRoomUnknownSays]
        : [fill(w.cardRoomBeyond, values), fill(w.cardRoomBeyondSays, values)]
    return [{ key, verdict: "can't tell", what, says: [says, ...findOut(ctx, key)] }]
  }
  const says = room.by.source === 'measured' ? w.cardRoomMeasured : w.cardRoomSays
  const freeMm = freeBehindFan(ctx)
  const mm = ctx.figures.named(key, room.value)
  const isMoved = ctx.pick?.change.work.includes('move front fan') === true
  return [
    {
      key,
      verdict: 'fits',
      what:
        freeMm === undefined
          ? fill(w.cardRoom, { mm })
          : fill(w.cardRoomFree, { mm, free: ctx.figures.named(key, freeMm) }),
      says: [says, ...(isMoved ? [w.cardRoomMoved] : [])],
    },
  ]
}

/** The length that a part was judged by with the front fan moved, where that is more. */
function freeBehindFan({ answer }: Context): number | undefined {
  const { ranked, withoutNumber, needsAFact, ruledOut } = answer.ranking
  const rooms = [...ranked, ...withoutNumber, ...needsAFact, ...ruledOut]
    .flatMap(({ findings }) => findings)
    .filter(({ rule }) => rule === 'graphics.length')
    .flatMap(({ values: { roomMm, freeMm } }) =>
      typeof roomMm === 'number' && typeof freeMm === 'number' && freeMm > roomMm ? [freeMm] : [],
    )
  return rooms.length === 0 ? undefined : Math.max(...rooms)
}

/** What goes in with another board alone; whatever stands on the shelf. */
function neverRow(ctx: Context): readonly Row[] {
  const { socket, memoryType } = ctx.answer.limits
  const w = ctx.words.board
  const values = {
    ...(socket.known && { socket: socket.value }),
    ...(memoryType.known && { type: memoryType.value }),
  }
  const line = socket.known ? (memoryType.known ? w.never : w.neverSocket) : w.neverMemory
  return socket.known || memoryType.known
    ? [{ key: 'never', verdict: 'does not fit', what: fill(line, values), says: [w.neverSays] }]
    : []
}

/** The length that is shown to be free by a card that goes in, where nobody measured the whole. */
function shownRoom({ answer }: Context): number | undefined {
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const lengths = [...ranked, ...withoutNumber, ...needsAFact]
    .flatMap(({ findings }) => findings)
    .filter(({ rule, verdict }) => rule === 'graphics.length' && verdict === 'fits')
    .flatMap(({ values: { roomMm } }) => (typeof roomMm === 'number' ? [roomMm] : []))
  return lengths.length === 0 ? undefined : Math.max(...lengths)
}

function coolerRow(ctx: Context): readonly Row[] {
  const room = ctx.answer.limits.coolerRoomMm
  const w = ctx.words.board
  const key = 'coolerRoomMm'
  if (!room.known) return []
  return [
    {
      key,
      verdict: 'fits',
      what: fill(w.coolerRoom, { mm: ctx.figures.named(key, room.value) }),
      says: [w.coolerRoomSays],
    },
  ]
}
