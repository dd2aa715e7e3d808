import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import type { Claim, LimitKey, LimitSource, LimitValues } from '../core/limits/limit.ts'
import { type Cell, line, oneOf, yesNo } from '../input/cells.ts'
import { claimSchema } from '../input/stored.ts'
import { LIMIT_COLUMNS } from '../input/tables/machines.ts'
import type { FieldReader } from './typed.ts'

/** Limits that hands in a machine can find out, in the order of a form; the rest follow from parts and tables. */
export const ENTERABLE = [
  'cardRoomMm',
  'coolerRoomMm',
  'firmware',
  'firmwareNeeded',
  'memoryRunsMts',
  'supplyPlugs',
  'supply12VW',
  'supplyRatedW',
  'processorPowerW',
  'boardRateMts',
  'memorySlots',
  'memoryMaxGB',
  'memoryPerSlotMaxGB',
  'slotPcieGen',
  'slotLanes',
  'cardSlots',
  'processorPlug',
  'supplyDesignVersion',
  'supplyYear',
  'pin16W',
  'cardCables',
  'sataPlugs',
  'sataPorts',
  'bays25',
  'bays35',
  'cardRoomFreeMm',
  'supplyAndCardMm',
  'coolingLoad',
  'processorMaxC',
  'systemLicence',
  'diskEncrypted',
  'trustModule',
  'secureStart',
  'memoryProfileOn',
  'modulesInBothChannels',
  'displayPluggedInto',
  'coolingClean',
  'frontFanFitted',
  'driversClean',
  'systemFresh',
  'systemOnFastestDrive',
  'largeBarOn',
  'processorSetW',
  'cardSetW',
  'brandBoard',
  'brandCase',
  'boardSupplyPlug',
  'supplyBoardPlug',
  'boardShape',
  'caseBoardMounting',
  'caseSupplyMounting',
  'slotPowerW',
  'firmwareAllowList',
  'supplyRoomMm',
  'displaySocket',
  'systemBits',
] as const satisfies readonly LimitKey[]
export type EnterableKey = (typeof ENTERABLE)[number]

export const enterableKey = (text: string | undefined): EnterableKey | undefined =>
  ENTERABLE.find((key) => key === text)

/** The values of a limit that is one of a few words, such as "one of: yes, no"; undefined for figures and names. */
export const choicesOf = (key: EnterableKey): string | undefined => {
  const { allowed } = LIMIT_COLUMNS[key].cell
  return allowed.startsWith('one of') ? allowed : undefined
}

/** The same words one by one. */
export const wordsOf = (key: EnterableKey): string[] | undefined =>
  choicesOf(key)
    ?.replace(/^one of:?\s*/, '')
    .split(', ')

/** Who can stand behind a typed value, with the words of the form. */
const SOURCES = [
  ['measured', 'measured, or seen on it'],
  ['read', 'read from the machine itself'],
  ['entered', 'typed, without evidence'],
] as const satisfies readonly (readonly [LimitSource, string])[]

/** Those of them that this limit counts: what would only be a hint is not asked for. */
export const sourcesFor = (key: LimitKey) =>
  SOURCES.filter(([source]) => LIMIT_CATALOGUE[key].belief.includes(source))

/** A stored claim that is shown and not counted, because its source is none that the limit believes. */
export const isHint = ({ key, source, pinned, bound }: Claim): boolean =>
  pinned !== true && bound === undefined && !LIMIT_CATALOGUE[key].belief.includes(source)

/**
 * One limit of a form whose fields are `limit.<key>`, `source.<key>`, `note.<key>` and the tick `pin.<key>`; undefined
 * when its value was left empty, because an empty limit is unknown and not zero.
 */
export function claimOf(key: EnterableKey, reader: FieldReader): Claim | undefined {
  const cell: Cell<LimitValues[LimitKey]> = LIMIT_COLUMNS[key].cell
  const value = reader.read(`limit.${key}`, cell)
  if (value === undefined) return undefined
  const says = reader.need(
    `source.${key}`,
    oneOf(sourcesFor(key).map(([source]) => source)),
    'Say who stands behind this value.',
  )
  const note = reader.read(`note.${key}`, line())
  if (says === undefined) return undefined
  const pinned = reader.read(`pin.${key}`, yesNo) === true
  return claimSchema.parse({
    ...{ key, value, source: says },
    ...(note !== undefined && { note }),
    ...(pinned && { pinned }),
  })
}
