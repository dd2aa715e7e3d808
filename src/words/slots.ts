import type { M2Socket } from '../core/part.ts'
import type { M2Place } from '../core/slots/drives.ts'
import type { MemorySlots } from '../core/slots/memory.ts'
import type { PlaceState } from '../core/slots/place.ts'
import type { Clearance, GraphicsSlot, LinkKnown } from '../core/slots/slots.ts'
import { SLOTS_EN as W } from './en/slots.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'

const UNKNOWN = W.state["can't tell"]

/** How many places stand how, such as "2 taken, 1 free"; `more` where their number is not known. */
export function sayCounts(states: readonly (PlaceState | 'off')[], more = false): string {
  const count = (state: PlaceState | 'off') => states.filter((one) => one === state).length
  const said = (['taken', 'free', 'off', "can't tell"] as const)
    .map((state) => ({ n: count(state), word: state === 'off' ? W.off : W.state[state] }))
    .filter(({ n }) => n > 0)
    .map(({ n, word }) => `${n} ${word}`)
  return [...said, ...(more ? [`${W.memory.more} ${UNKNOWN}`] : [])].join(', ') || W.supply.noPlugs
}

/** Generation and lanes as the trade writes them; what is not known is named. */
export const sayLink = ({ gen, lanes }: LinkKnown): string =>
  gen === undefined && lanes === undefined
    ? UNKNOWN
    : [
        gen === undefined ? W.graphics.genUnknown : fill(W.graphics.gen, { gen: String(gen) }),
        lanes === undefined ? W.graphics.lanesUnknown : fill(W.graphics.lanes, { lanes: String(lanes) }),
      ].join(gen === undefined || lanes === undefined ? ', ' : ' ')

/** Lines under the graphics slot: as the board has it, and as the fitted card runs. */
export function sayGraphics({ built, runs, state, shared }: GraphicsSlot): string[] {
  const sharing = shared === undefined ? [] : [fill(W.graphics.shared, { lanes: String(shared) })]
  const running = state === 'taken' ? sayLink(runs ?? {}) : state === 'free' ? W.graphics.noCard : UNKNOWN
  return [`${W.graphics.built}: ${sayLink(built)}`, ...sharing, `${W.graphics.runs}: ${running}`]
}

/** What a memory slot takes: a slot, all together, at which rate. */
export function sayMemory({ takes }: MemorySlots, figures: Figures): string[] {
  const most = (name: string, value: number | undefined) =>
    value === undefined ? UNKNOWN : fill(W.memory.upTo, { value: figures.named(name, value) })
  return [
    `${W.memory.aSlot}: ${most('GB', takes.perSlotMaxGB)}`,
    `${W.memory.inAll}: ${most('GB', takes.maxGB)}`,
    `${W.memory.rate}: ${most('Mts', takes.rateMts)}`,
  ]
}

/** What an M.2 socket is wired for, and the lengths it has a screw for. */
export function saySocket({ pcieGen, lanes, sata, lengthsMm, key }: M2Socket): string {
  const pcie =
    lanes === undefined && pcieGen === undefined ? [] : [`${W.m2.pcie} ${sayLink({ gen: pcieGen, lanes })}`]
  const lengths = `${lengthsMm.join('/')} mm`
  const other = key === 'M' ? [] : [fill(W.m2.key, { key })]
  return [...pcie, ...(sata ? [W.m2.sata] : []), lengths, ...other].join(', ')
}

/** What is in the M.2 sockets, as far as it can be told from what is written down. */
export function sayM2Drives(m2: readonly M2Place[], names: readonly string[]): string | undefined {
  const [first] = names
  if (first === undefined || m2.length === 0) return undefined
  const isSure = m2.every(({ state }) => state !== "can't tell")
  return fill(isSure ? W.m2.drives : W.m2.oneOf, { names: names.join(', ') })
}

/** Room against what is in it, in one line. */
export function sayRoom({ roomMm, atLeastMm, usedMm }: Clearance, figures: Figures): string {
  const mm = (value: number) => figures.named('Mm', value)
  const used = usedMm === undefined ? undefined : mm(usedMm)
  if (roomMm !== undefined)
    return used === undefined
      ? fill(W.room.roomOnly, { room: mm(roomMm) })
      : fill(W.room.of, { used, room: mm(roomMm) })
  const bound = atLeastMm === undefined ? [] : [fill(W.room.atLeast, { room: mm(atLeastMm) })]
  return [UNKNOWN, ...bound, ...(used === undefined ? [] : [fill(W.room.used, { used })])].join(', ')
}
