import type { Build } from '../build.ts'
import type { ChipsetRow } from '../facts/chipsets/row.ts'
import { slotGenOf, supportOf } from '../facts/chipsets.ts'
import type { Generation } from '../facts/generations.ts'
import type { ProcessorRow } from '../facts/processors/row.ts'
import { agreed, maxTempOf, officialRate, type RateFigure } from '../facts/processors.ts'
import type { Board, Processor } from '../part.ts'
import { atLeast, byPlatform, remarks } from './claim.ts'
import { CHANNELS, chipsetMaxOf, type Known, leastOf, processorMaxGB } from './known.ts'
import type { Claim, Resolved } from './limit.ts'

/**
 * Claims from the published tables. What a board may have less or more of than its chipset (slots, largest memory,
 * slot generation) is claimed only where the board's own figure is missing: the two are not in conflict then.
 */
export function fromPlatform(build: Build, known: Known): Claim[] {
  const { board, processor } = build
  const { chipset } = known
  return [
    ...(board === undefined ? [] : slotLanes(board)),
    ...(board === undefined || chipset === undefined ? [] : fromChipset(board, chipset, known)),
    ...(processor === undefined ? [] : [...fromProcessor(known), ...hottest(processor, known)]),
  ]
}

const memoryMark = <Row extends { readonly fromMemory?: readonly (keyof Row)[] }>(
  row: Row,
  field: keyof Row,
) => (row.fromMemory?.includes(field) ? 'from memory' : undefined)

function fromChipset(board: Board, chipset: ChipsetRow, known: Known): Claim[] {
  const note = chipset.source.text
  const { generation } = known
  const slot = board.slotPcieGen === undefined ? slotGenOf(chipset, generation) : undefined
  return [
    ...byPlatform('socket', chipset.socket, { note }),
    ...byPlatform('family', chipset.family, { note }),
    ...byPlatform('memoryType', chipset.memoryTypes.length === 1 ? chipset.memoryTypes[0] : undefined, {
      note,
    }),
    ...(generation === undefined ? [] : support(chipset, generation)),
    ...(board.memorySlots === undefined ? slots(chipset) : []),
    ...(board.memoryMaxGB === undefined ? memoryMax(chipset, known) : []),
    ...byPlatform('slotPcieGen', slot?.gen, {
      note: remarks(note, memoryMark(chipset, 'slotPcieGen'), slot?.note),
      doubt: slot?.doubt,
    }),
    ...atLeast('slotPcieGen', slot?.doubt === undefined ? undefined : slot.atLeast, 'platform', note),
    ...memoryOverclock(chipset),
  ]
}

function memoryOverclock(chipset: ChipsetRow): Claim[] {
  const isFromMemory = chipset.fromMemory?.includes('memoryOverclock') === true
  return byPlatform('memoryOverclock', chipset.memoryOverclock ? 'yes' : 'no', {
    note: chipset.source.text,
    doubt: isFromMemory ? UNSURE : undefined,
  })
}

/** Only the need for firmware is from memory in the rows marked so; "native" and "not supported" were seen. */
function support(chipset: ChipsetRow, generation: Generation): Claim[] {
  const value = supportOf(chipset, generation)
  const mark = value === 'firmware update' ? memoryMark(chipset, 'supports') : undefined
  return byPlatform('generationSupport', value, { note: remarks(chipset.source.text, mark, chipset.note) })
}

function slots(chipset: ChipsetRow): Claim[] {
  const most = chipset.dimmsPerChannel * CHANNELS
  const doubt = `at most ${most} with this chipset, and many boards have fewer: count them`
  return byPlatform('memorySlots', most, { note: chipset.source.text, doubt })
}

/** min(chipset for this memory type, processor class): neither end alone is enough. */
function memoryMax(chipset: ChipsetRow, known: Known): Claim[] {
  const chipsetGB = chipsetMaxOf(known)
  const classGB = processorMaxGB(known)
  if (chipsetGB === undefined) return []
  const isByClass = classGB !== undefined && classGB < chipsetGB
  const fromMemory = known.rows.some((row) => memoryMark(row, 'memoryMaxGB') !== undefined)
  return byPlatform('memoryMaxGB', isByClass ? classGB : chipsetGB, {
    note: isByClass
      ? remarks(
          `${classGB} GB by the processor, ${chipsetGB} GB by the chipset`,
          fromMemory ? 'the former from memory' : undefined,
        )
      : remarks(chipset.source.text, memoryMark(chipset, 'memoryMaxGB')),
    doubt: chipset.doubts?.memoryMaxGB,
  })
}

/** No table says how a board wires its slot, and a long slot may have eight lanes only. */
function slotLanes(board: Board): Claim[] {
  if (board.slotLanes !== undefined) return []
  const doubt = 'most boards wire 16 lanes, and the length of a slot does not tell: see the board page'
  return byPlatform('slotLanes', 16, { doubt })
}

function fromProcessor(known: Known): Claim[] {
  const { rows, memoryType, modulesPerChannel, slotsPerChannel, ranks } = known
  const graphics = agreed(rows, (row) => row.graphics)
  const gen = agreed(rows, (row) => row.graphics.gen)
  const rateOf = (row: ProcessorRow) =>
    memoryType === undefined
      ? undefined
      : officialRate(row, memoryType, modulesPerChannel, slotsPerChannel, ranks)
  const rate = agreed(rows, rateOf)
  const marked = (field: keyof ProcessorRow) =>
    remarks(rows[0]?.source.text, rows.some((row) => memoryMark(row, field)) ? 'from memory' : undefined)
  return [
    ...byPlatform('processorPcieGen', gen, { note: marked('graphics') }),
    ...byPlatform('processorPcieLanes', graphics?.lanes, {
      note: marked('graphics'),
      doubt: graphics?.lanesDoubt,
    }),
    ...byPlatform('controllerRateMts', rate?.rateMts, {
      note: remarks(marked('rates'), rate?.note),
      doubt: rate?.doubt,
    }),
    ...(rate === undefined || rate.doubt !== undefined
      ? atLeast(
          'controllerRateMts',
          leastOf(known, (row) => sureMts(rateOf(row))),
          'platform',
        )
      : []),
    ...(graphics === undefined || graphics.lanesDoubt !== undefined
      ? atLeast(
          'processorPcieLanes',
          leastOf(known, (row) => row.graphics.lanes),
          'platform',
        )
      : []),
  ]
}

/** The printed maximum temperature. Who knows the family only is told of its models that are printed apart. */
function hottest({ processorClass = '' }: Processor, { rows }: Known): Claim[] {
  const isFamily = !/\d{3}/.test(processorClass)
  const others = isFamily ? rows.flatMap((row) => row.otherMaxTemps ?? []) : []
  return byPlatform(
    'processorMaxC',
    agreed(rows, (row) => maxTempOf(row, processorClass)),
    {
      note: remarks(
        rows[0]?.source.text,
        rows.some((row) => memoryMark(row, 'maxTempC')) ? 'from memory' : undefined,
        ...others.map(
          ({ models, maxTempC }) =>
            `${models.join(', ')}: ${maxTempC === undefined ? 'a span, lower' : `${maxTempC} °C`}`,
        ),
      ),
    },
  )
}

/** What is sure of a rate: all of it, or the bound that a doubt leaves. */
const sureMts = (rate: RateFigure | undefined): number | undefined =>
  rate?.doubt === undefined ? rate?.rateMts : rate.atLeastMts

const UNSURE = 'whether a profile may run above it was not seen in print'

/**
 * The rate above which the board does not go without a profile: the controller's, as believed. It is derived from
 * the resolved limit, so that a measured controller rate also frees the board's. A board page that lists a rate
 * makes its own claim. Locked chipsets never go above it; the others may, with a profile, which is overclocking.
 */
export function boardRate(
  build: Build,
  { chipset }: Known,
  controller: Resolved<'controllerRateMts'>,
): Claim[] {
  if (chipset === undefined || build.board?.memoryRateMtsMax !== undefined) return []
  const seen = controller.known ? controller.value : controller.claims[0]?.value
  const above = chipset.memoryOverclock
    ? 'a profile may run above it, as overclocking'
    : 'no profile above it'
  return byPlatform('boardRateMts', seen, {
    note: remarks(
      'the rate of the processor',
      chipset.fromMemory?.includes('memoryOverclock') ? UNSURE : above,
    ),
    doubt: controller.known ? undefined : (controller.doubt ?? 'the rate of the processor is not known'),
  })
}
