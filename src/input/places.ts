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

/** Cells for the lists of a board's M.2 sockets and of a case's places, each with the writer that reads it back. */

const refuse = (piece: string, allowed: string) =>
  new Refusal('not allowed', `"${piece}" is not readable here. Write ${allowed}.`)

/** Pieces parted by ";", each read into one row or several. */
function rows<T>(allowed: string, read: (piece: string) => readonly T[] | undefined): Cell<T[]> {
  return {
    allowed,
    read: (text) => {
      const all: T[] = []
      for (const piece of text.split(';').map((p) => p.trim())) {
        if (piece === '') continue
        const made = read(piece)
        if (made === undefined) return refuse(piece, allowed)
        all.push(...made)
      }
      return all
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
)

const M2_ALLOWED =
  'sockets such as M2_1: key M, 42/60/80 mm, PCIe 3 x4, SATA, turns off SATA5+SATA6, shares slot; several with ";" between'

/** One socket; everything behind its name is optional but its key and its lengths. */
function m2Socket(piece: string): M2Socket[] | undefined {
  const [, name, rest] = /^([^:]{1,40}?)\s*:\s*(.+)$/.exec(piece) ?? []
  if (name === undefined || rest === undefined) return undefined
  const read: { -readonly [F in keyof M2Socket]?: M2Socket[F] } & { sata: boolean } = { name, sata: false }
  for (const word of rest.split(',').map((w) => w.trim())) {
    const key = /^key\s+(\w)$/i.exec(word)?.[1]?.toUpperCase()
    const lengths = /^(\d{2,3}(?:\s*\/\s*\d{2,3})*)\s*mm$/i.exec(word)?.[1]
    const link = /^PCIe\s+(\d)(?:\.0)?\s*x\s*(\d{1,2})$/i.exec(word)
    const off = /^turns off\s+(.+)$/i.exec(word)?.[1]
    if (key !== undefined) {
      const known = M2_SOCKET_KEYS.find((k) => k === key)
      if (known === undefined) return undefined
      read.key = known
    } else if (lengths !== undefined) read.lengthsMm = lengths.split('/').map(Number)
    else if (link !== null) {
      read.pcieGen = Number(link[1])
      read.lanes = Number(link[2])
    } else if (/^SATA$/i.test(word)) read.sata = true
    else if (off !== undefined) read.sataPortsOff = off.split(/\s*\+\s*/)
    else if (/^shares slot$/i.test(word)) read.sharesSlot = true
    else return undefined
  }
  const { key, lengthsMm, sata } = read
  if (key === undefined || lengthsMm === undefined) return undefined
  return [{ ...read, name, key, lengthsMm, sata }]
}

export const m2Sockets: Cell<M2Socket[]> = rows(M2_ALLOWED, m2Socket)

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
    .join('; ')

export const fanPlacesText = (places: readonly FanPlace[]): string =>
  byPlace(places, ({ count, sizeMm }) => `${count}x${sizeMm}`, ' or ')

export const radiatorPlacesText = (places: readonly RadiatorPlace[]): string =>
  byPlace(places, ({ sizeMm }) => `${sizeMm}`, ', ')

function byPlace<P extends { readonly place: CasePlace }>(
  places: readonly P[],
  say: (place: P) => string,
  between: string,
): string {
  const named = [...new Set(places.map(({ place }) => place))]
  return named
    .map(
      (name) =>
        `${name} ${places
          .filter(({ place }) => place === name)
          .map(say)
          .join(between)}`,
    )
    .join('; ')
}
