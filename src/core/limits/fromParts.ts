import type { Build } from '../build.ts'
import { supportOf } from '../facts/chipsets.ts'
import { generationNamed } from '../facts/generations.ts'
import { laterMark } from '../facts/laterModels.ts'
import type { Board, Part } from '../part.ts'
import { atLeast, byPart, remarks } from './claim.ts'
import { type Known, leastOf, processorMaxGB } from './known.ts'
import type { Claim, LimitKey, LimitValues, YesNo } from './limit.ts'

/**
 * A figure of a part: its data sheet's, or, where it was only read from the name that somebody typed, theirs.
 *
 * @param field the part's field it comes from
 */
function byFigure<P extends Part, K extends LimitKey>(
  part: P | undefined,
  field: keyof P & string,
  key: K,
  value: LimitValues[K] | undefined,
  note?: string,
): Claim<K>[] {
  if (part?.readFromName?.includes(field) !== true) return byPart(key, value, { note })
  const said = { source: 'entered', note: remarks('read from its name', note) } as const
  return byPart(key, value).map((claim) => ({ ...claim, ...said }))
}

/** Claims from the data sheets of the fitted parts, and from their names where these are all there is. */
export function fromParts(build: Build, known: Known): Claim[] {
  const { board, case: box, supply } = build
  return [
    ...(board === undefined ? [] : fromBoard(board, laterMark(build.processor), known)),
    ...byFigure(box, 'cardRoomMm', 'cardRoomMm', box?.cardRoomMm),
    ...byPart('cardSlots', box?.cardSlots),
    ...byPart('cardBracket', box?.cardBracket),
    ...byFigure(box, 'coolerRoomMm', 'coolerRoomMm', box?.coolerRoomMm),
    ...byFigure(supply, 'ratedW', 'supplyRatedW', supply?.ratedW),
    ...byPart('supply12VW', supply?.rail12VW),
    ...byFigure(supply, 'plugs', 'supplyPlugs', supply?.plugs),
    ...byPart('processorPlug', supply?.processorPlug),
    ...byPart('supplyDesignVersion', supply?.designVersion),
    ...byPart('pin16W', supply?.pin16W),
    ...byPart('cardCables', supply?.cardCables),
    ...byPart('sataPlugs', supply?.sataPlugs),
    ...byPart('supplyRoomMm', box?.supplyRoomMm),
    ...byPart('supplyAndCardMm', box?.supplyAndCardMm),
    ...byPart('bays25', box?.bays25),
    ...byPart('bays35', box?.bays35),
  ]
}

function fromBoard(board: Board, later: string | undefined, known: Known): Claim[] {
  return [
    ...byPart('socket', board.socket),
    ...byFigure(board, 'chipset', 'chipset', board.chipset),
    ...byPart('processorPowerW', board.processorPowerW),
    ...byFigure(board, 'memoryType', 'memoryType', board.memoryType),
    ...byFigure(board, 'memorySlots', 'memorySlots', board.memorySlots),
    ...byPart('boardRateMts', board.memoryRateMtsMax),
    ...byPart('slotPcieGen', board.slotPcieGen),
    ...byPart('slotLanes', board.slotLanes),
    ...byPart('slotLanesShared', board.slotLanesShared),
    ...byPart('largeBar', yesNo(board.largeBar)),
    ...byPart('sataPorts', board.sataPorts),
    ...fromProcessorList(board, later, known),
    ...memoryMax(board, known),
    ...perSlot(board),
  ]
}

const yesNo = (value: boolean | undefined): YesNo | undefined =>
  value === undefined ? undefined : value ? 'yes' : 'no'

/**
 * The board maker's processor list. A generation on it is taken, from the listed firmware on, whatever the chipset
 * table says: the board's page wins in both directions. One that is missing says nothing, because shops enter the
 * lines they need.
 */
function fromProcessorList(board: Board, later: string | undefined, known: Known): Claim[] {
  const { chipset, generation } = known
  const lines = Object.entries(board.firmwareByGeneration ?? {})
  const line = lines.find(([name]) => generation !== undefined && generationNamed(name) === generation)
  // A line of its own for models that came later: the generation's name with their mark behind it.
  const own = later === undefined ? undefined : lines.find(([name]) => name === `${generation} ${later}`)
  if (generation === undefined || (own === undefined && line === undefined)) return []
  const version = own?.[1] ?? line?.[1]
  const isNative = chipset !== undefined && supportOf(chipset, generation) === 'native'
  const note = `on the board maker's processor list from firmware ${version}`
  const isOfOthers = later !== undefined && own === undefined
  const doubt = isOfOthers
    ? `firmware ${version} is for the first models of the generation; ${later} models came later, so look for this very model`
    : undefined
  return [
    ...byPart('generationSupport', isNative ? 'native' : 'firmware update', { note }),
    ...byPart('firmwareNeeded', version, { doubt }),
  ]
}

/**
 * Usable memory = min(board page, maximum of the processor's class): an i3 of the 8th generation stops at 64 GB.
 * Where the class is not known and its figures differ, only the least of them is sure. Where the processor's figure
 * was printed before larger modules came, the board's is kept beside it: between the two nobody knows.
 */
function memoryMax(board: Board, known: Known): Claim[] {
  const boardGB = board.memoryMaxGB
  const classGB = processorMaxGB(known)
  if (boardGB === undefined) return []
  const leastGB = leastOf(known, (row) => row.memoryMaxGB)
  if (classGB === undefined && leastGB !== undefined && leastGB < boardGB) {
    const doubt = `${leastGB} GB or more: it depends on the class of the processor`
    return [...byPart('memoryMaxGB', boardGB, { doubt }), ...atLeast('memoryMaxGB', leastGB, 'platform')]
  }
  if (classGB === undefined || !(classGB < boardGB)) return byPart('memoryMaxGB', boardGB)
  const note = remarks(
    `the board page says ${boardGB} GB, the processor's page stops at ${classGB} GB`,
    known.rows.some((row) => row.fromMemory?.includes('memoryMaxGB')) ? 'the latter from memory' : undefined,
  )
  const isOpen = known.rows.every((row) => row.memoryMaxIsOfItsTime === true)
  return [
    ...byPart('memoryMaxGB', classGB, { note }),
    ...(isOpen ? byPart('memoryListedMaxGB', boardGB, { note }) : []),
  ]
}

/** A board page that gives the total only means equal modules in all slots (common practice of board pages). */
function perSlot(board: Board): Claim[] {
  const { memoryPerSlotMaxGB, memoryMaxGB, memorySlots } = board
  if (memoryPerSlotMaxGB !== undefined) return byPart('memoryPerSlotMaxGB', memoryPerSlotMaxGB)
  if (memoryMaxGB === undefined || memorySlots === undefined) return []
  const shareGB = memoryMaxGB / memorySlots
  return Number.isInteger(shareGB)
    ? byFigure(
        board,
        'memorySlots',
        'memoryPerSlotMaxGB',
        shareGB,
        `${memoryMaxGB} GB over ${memorySlots} slots`,
      )
    : []
}
