import { LINK_GENERATIONS, LINK_LANES } from '../core/facts/links.ts'
import { M2_SIZES } from '../core/facts/storage.ts'
import {
  CASE_PLACES,
  type CasePlace,
  type FanPlace,
  M2_SOCKET_KEYS,
  type M2Socket,
  type RadiatorPlace,
} from '../core/part.ts'
import type { Cell } from './cells.ts'
import { Refusal } from './refusal.ts'

/**
 * Cells for the lists of a board's M.2 sockets and of a case's places, each with the writer that reads it back. An empty
 * cell means that nobody looked; `none` means that there are none.
 */

const NONE = 'none'

const refuse = (piece: string, allowed: string) =>
  new Refusal('not allowed', `"${shortened(piece)}" is not readable here. Write ${allowed}.`)

const shortened = (piece: string): string => (piece.length > 60 ? `${piece.slice(0, 59)}…` : piece)

/** Pieces parted by ";", each read into one row or several. What stands twice is a slip of the keyboard. */
function rows<T>(
  allowed: string,
  read: (piece: string) => readonly T[] | undefined,
  nameOf: (row: T) => string,
  write: (all: readonly T[]) => string,
): Cell<T[]> {
  return {
    allowed: `${allowed}, or ${NONE}`,
    write,
    read: (text) => {
      if (text.trim().toLowerCase() === NONE) return []
      const all: T[] = []
      for (const piece of text.split(';').map((p) => p.trim())) {
        if (piece === '') continue
        const made = read(piece)
        if (made === undefined) return refuse(piece, allowed)
        all.push(...made)
      }
      if (all.length === 0) return refuse(text, allowed)
      const names = all.map(nameOf)
      const twice = names.find((name, i) => names.indexOf(name) !== i)
      return twice === undefined
        ? all
        : new Refusal('not allowed', `"${twice}" stands here twice. Write each once.`)
    },
  }
}

const isPlace = (word: string): word is CasePlace => CASE_PLACES.some((place) => place === word)

/** `front 3x120 or 2x140` -> its place and the alternatives. */
function placed(piece: string): { place: CasePlace; alternatives: string[] } | undefined {
  const [, word = '', rest = ''] = /^(\p{L}+)[\s:]+(.+)$/u.exec(piece) ?? []
  const place = word.toLowerCase()
  return isPlace(place) ? { place, alternatives: rest.split(/\s+or\s+|\s*,\s*/i) } : undefined
}

const inRange = (mm: number) => mm >= 40 && mm <= 600

export const fanPlaces: Cell<FanPlace[]> = rows(
  'places such as front 3x120 or 2x140; rear 1x120',
  (piece) => {
    const found = placed(piece)
    const places = found?.alternatives.map((text) => {
      const [, count, size] = /^(\d{1,2})\s*[x×]\s*(\d{2,3})(?:\s*mm)?$/i.exec(text.trim()) ?? []
      return { place: found.place, sizeMm: Number(size), count: Number(count) }
    })
    return places?.every(({ sizeMm, count }) => inRange(sizeMm) && count > 0) ? places : undefined
  },
  ({ place, sizeMm }) => `${place} ${sizeMm}`,
  (places) => fanPlacesText(places),
)

export const radiatorPlaces: Cell<RadiatorPlace[]> = rows(
  'places such as front 240, 280, 360; rear 120',
  (piece) => {
    const found = placed(piece)
    const places = found?.alternatives.map((text) => ({
      place: found.place,
      sizeMm: Number(/^(\d{2,3})(?:\s*mm)?$/i.exec(text.trim())?.[1]),
    }))
    return places?.every(({ sizeMm }) => inRange(sizeMm)) ? places : undefined
  },
  ({ place, sizeMm }) => `${place} ${sizeMm}`,
  (places) => radiatorPlacesText(places),
)

const M2_ALLOWED =
  'sockets such as M2_1: key M, 42/60/80 mm, PCIe 3 x4, SATA, turns off SATA5+SATA6, shares slot; several with ";" between'

const LENGTHS: ReadonlySet<number> = new Set(M2_SIZES.map(({ lengthMm }) => lengthMm))
const GENERATIONS: ReadonlySet<number> = new Set(LINK_GENERATIONS.map(({ gen }) => gen))
/** An M.2 socket has lanes for four at most (PCI-SIG M.2 Specification). */
const LANES: ReadonlySet<number> = new Set(LINK_LANES.filter((lanes) => lanes <= 4))

type Words = { -readonly [F in keyof M2Socket]?: M2Socket[F] }

/** One word of a socket's description; `undefined` where it is none. */
function m2Word(word: string): Words | undefined {
  const key = /^key\s+(\w)$/i.exec(word)?.[1]?.toUpperCase()
  if (key !== undefined) {
    const known = M2_SOCKET_KEYS.find((k) => k === key)
    return known && { key: known }
  }
  const lengths = /^(\d{2,3}(?:\s*\/\s*\d{2,3})*)\s*mm$/i.exec(word)?.[1]?.split('/').map(Number)
  if (lengths !== undefined)
    return lengths.every((mm) => LENGTHS.has(mm)) ? { lengthsMm: [...new Set(lengths)] } : undefined
  const [, gen, count] = /^PCIe\s+(\d)(?:\.0)?\s*x\s*(\d{1,2})$/i.exec(word) ?? []
  if (gen !== undefined) {
    const [pcieGen, lanes] = [Number(gen), Number(count)]
    return GENERATIONS.has(pcieGen) && LANES.has(lanes) ? { pcieGen, lanes } : undefined
  }
  if (/^SATA$/i.test(word)) return { sata: true }
  if (/^shares slot$/i.test(word)) return { sharesSlot: true }
  const ports = /^turns off\s+(.+)$/i.exec(word)?.[1]?.split('+')
  const names = ports?.map((port) => port.trim())
  return names?.every((name) => name !== '') ? { sataPortsOff: [...new Set(names)] } : undefined
}

/** One socket; key and lengths have to be there, everything else is optional, and nothing is said twice. */
function m2Socket(piece: string): M2Socket[] | undefined {
  const [, name, rest] = /^([^:]{1,40}?)\s*:\s*(.+)$/.exec(piece) ?? []
  if (name === undefined || rest === undefined) return undefined
  const read: Words = {}
  for (const word of rest.split(',').map((w) => w.trim())) {
    const said = m2Word(word)
    if (said === undefined || Object.keys(said).some((field) => field in read)) return undefined
    Object.assign(read, said)
  }
  const { key, lengthsMm, sata = false } = read
  return key === undefined || lengthsMm === undefined ? undefined : [{ ...read, name, key, lengthsMm, sata }]
}

export const m2Sockets: Cell<M2Socket[]> = rows(
  M2_ALLOWED,
  m2Socket,
  ({ name }) => name,
  (sockets) => m2SocketsText(sockets),
)

/** The lists as their cells read them back. */
export const m2SocketsText = (sockets: readonly M2Socket[]): string =>
  sockets
    .map((s) => {
      const link = s.pcieGen === undefined || s.lanes === undefined ? [] : [`PCIe ${s.pcieGen} x${s.lanes}`]
      const words = [
        `key ${s.key}`,
        `${s.lengthsMm.join('/')} mm`,
        ...link,
        ...(s.sata ? ['SATA'] : []),
        ...(s.sataPortsOff?.length ? [`turns off ${s.sataPortsOff.join('+')}`] : []),
        ...(s.sharesSlot ? ['shares slot'] : []),
      ]
      return `${s.name}: ${words.join(', ')}`
    })
    .join('; ') || NONE

export const fanPlacesText = (places: readonly FanPlace[]): string =>
  byPlace(places, ({ count, sizeMm }) => `${count}x${sizeMm}`, ' or ')

export const radiatorPlacesText = (places: readonly RadiatorPlace[]): string =>
  byPlace(places, ({ sizeMm }) => `${sizeMm}`, ', ')

/** Neighbours of one place stand together; the order stays, because a list in another order is another list. */
function byPlace<P extends { readonly place: CasePlace }>(
  places: readonly P[],
  say: (place: P) => string,
  between: string,
): string {
  const said = places.map((place, n) =>
    place.place === places[n - 1]?.place ? `${between}${say(place)}` : `; ${place.place} ${say(place)}`,
  )
  return said.join('').slice(2) || NONE
}
