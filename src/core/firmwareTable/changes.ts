import { modulesIn } from './memory.ts'
import type { FirmwareTable, TableModule } from './table.ts'
import { processorName, told } from './told.ts'

/** What a module is, for a sentence. */
export type ModuleSaid = {
  readonly sizeGB?: number | undefined
  readonly type?: string | undefined
  readonly partNumber?: string | undefined
}

/**
 * One thing that differs between two readings of a machine. `count` is that of the modules that are fitted now, told where
 * it is the only place that was filled or emptied.
 */
export type TableChange =
  | {
      readonly what: 'module added' | 'module gone'
      readonly place?: string | undefined
      readonly module: ModuleSaid
      readonly count?: number | undefined
    }
  | {
      readonly what: 'module changed'
      readonly place?: string | undefined
      readonly from: ModuleSaid
      readonly to: ModuleSaid
    }
  | { readonly what: 'board' | 'processor' | 'firmware'; readonly from: string; readonly to: string }
  | { readonly what: 'memory rate'; readonly fromMts: number; readonly toMts: number }

/**
 * What changed from one reading to the next, places of memory first. A field that one of them does not tell is no
 * change: firmware updates fill fields in and empty them.
 */
export function changesBetween(before: FirmwareTable, now: FirmwareTable): TableChange[] {
  const named = (what: 'board' | 'processor' | 'firmware', from?: string, to?: string): TableChange[] =>
    from === undefined || to === undefined || from === to ? [] : [{ what, from, to }]
  return [
    ...named('board', told(before.board.product), told(now.board.product)),
    ...named('processor', processorIn(before), processorIn(now)),
    ...moduleChanges(before, now),
    ...rateChange(before, now),
    ...named('firmware', told(before.firmware.version), told(now.firmware.version)),
  ]
}

const processorIn = ({ processors }: FirmwareTable): string | undefined => {
  const name = told(processors.find((p) => p.fitted)?.name)
  return name === undefined ? undefined : processorName(name)
}

/** Modules by place; of places with one name the first, the second and so on. */
function byPlace({ modules }: FirmwareTable): Map<string, TableModule> {
  const places = new Map<string, TableModule>()
  for (const m of modules) {
    const name = [m.bank, m.place].join(' ')
    let n = 1
    while (places.has(`${name} ${n}`)) n++
    places.set(`${name} ${n}`, m)
  }
  return places
}

const said = ({ sizeMiB, type, partNumber }: TableModule): ModuleSaid => ({
  sizeGB: sizeMiB === undefined ? undefined : sizeMiB / 1024,
  type,
  partNumber: told(partNumber),
})

const placeOf = ({ bank, place }: TableModule): string | undefined =>
  [told(bank), told(place)].filter((name) => name !== undefined).join(' ') || undefined

const isOther = (a: ModuleSaid, b: ModuleSaid): boolean =>
  a.sizeGB !== b.sizeGB ||
  (a.partNumber !== undefined && b.partNumber !== undefined && a.partNumber !== b.partNumber)

function moduleChanges(before: FirmwareTable, now: FirmwareTable): TableChange[] {
  const [was, is] = [byPlace(before), byPlace(now)]
  const places = [...new Set([...was.keys(), ...is.keys()])]
  const changes = places.flatMap((key) => placeChange(was.get(key), is.get(key)))
  const isMoved = ({ what }: TableChange) => what === 'module added' || what === 'module gone'
  const count = changes.filter(isMoved).length === 1 ? modulesIn(now).length : undefined
  return changes.map((change) => (isMoved(change) && count !== undefined ? { ...change, count } : change))
}

function placeChange(old: TableModule | undefined, fresh: TableModule | undefined): TableChange[] {
  const [had, has] = [old?.holds ?? 'nothing', fresh?.holds ?? 'nothing']
  if (fresh !== undefined && had === 'nothing' && has === 'module')
    return [{ what: 'module added', place: placeOf(fresh), module: said(fresh) }]
  if (old !== undefined && had === 'module' && has === 'nothing')
    return [{ what: 'module gone', place: placeOf(old), module: said(old) }]
  if (old === undefined || fresh === undefined || had !== 'module' || has !== 'module') return []
  const [from, to] = [said(old), said(fresh)]
  return isOther(from, to) ? [{ what: 'module changed', place: placeOf(fresh), from, to }] : []
}

function rateChange(before: FirmwareTable, now: FirmwareTable): TableChange[] {
  const [fromMts, toMts] = [before, now].map((table) =>
    modulesIn(table).reduce(
      (least, m) => Math.min(least, m.runs?.mts ?? Number.NaN),
      Number.POSITIVE_INFINITY,
    ),
  )
  if (fromMts === undefined || toMts === undefined) return []
  return Number.isFinite(fromMts) && Number.isFinite(toMts) && fromMts !== toMts
    ? [{ what: 'memory rate', fromMts, toMts }]
    : []
}
