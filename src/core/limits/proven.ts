import type { Build, Change } from '../build.ts'
import { slotsOf } from '../facts/cards.ts'
import { chipsetNamed } from '../facts/chipsets.ts'
import { generationNamed } from '../facts/generations.ts'
import { rowsFor } from '../facts/processors.ts'
import type { Machine } from '../machine.ts'
import type { GraphicsCard, PartKind } from '../part.ts'
import { atLeast } from './claim.ts'
import type { Claim } from './limit.ts'

/**
 * What the machine proves by running as it stands, as lower bounds: slots that hold modules, a total and a module
 * size in use, the room and the slots of the fitted card. A bound holds while the parts it hangs on stay. A longer
 * card proves its length only for cards that are no thicker: the room beside it is another one.
 */
export function provenBy({ build }: Machine, change: Change, changed: ReadonlySet<PartKind>): Claim[] {
  const stay = (...kinds: readonly PartKind[]) => kinds.every((kind) => !changed.has(kind))
  return [
    ...(build.board !== undefined && stay('board')
      ? [...ofMemory(build.memory, processorMaxGB(change, stay('processor'))), ...ofGeneration(build, change)]
      : []),
    ...(build.case !== undefined && stay('case') ? ofCard(build.card, change, stay('fan')) : []),
  ]
}

const known = (figure: number | undefined): figure is number =>
  figure !== undefined && Number.isFinite(figure) && figure > 0

/** What a new processor drives by its own page; no end to it where the processor stays. */
function processorMaxGB({ add }: Change, isSame: boolean): number | undefined {
  if (isSame) return Number.POSITIVE_INFINITY
  const next = add.find((part) => part.kind === 'processor')
  const maxima = rowsFor(next?.generation, next?.processorClass).map((row) => row.memoryMaxGB)
  return maxima.length > 0 && maxima.every((gb) => gb !== undefined) ? Math.min(...maxima) : undefined
}

/** A board whose chipset nobody knows takes the generation that runs in it. */
function ofGeneration({ board, processor }: Build, { add }: Change): Claim[] {
  const next = add.find((part) => part.kind === 'processor')
  const wanted = generationNamed(next?.generation)
  const isSame = wanted !== undefined && wanted === generationNamed(processor?.generation)
  if (!isSame || chipsetNamed(board?.chipset) !== undefined) return []
  return [
    {
      key: 'generationSupport',
      value: 'native',
      source: 'measured',
      note: 'this generation runs in it today',
    },
  ]
}

/** @param processorGB what the processor drives: the board has run the total, and the processor must drive it too */
function ofMemory(kits: Machine['build']['memory'], processorGB: number | undefined): Claim[] {
  let modules = 0
  let totalGB = 0
  let largestGB = 0
  for (const kit of kits) {
    if (!known(kit.modules) || !known(kit.moduleGB)) return []
    modules += kit.modules
    totalGB += kit.modules * kit.moduleGB
    largestGB = Math.max(largestGB, kit.moduleGB)
  }
  if (modules === 0) return []
  const note = 'in use today'
  return [
    ...atLeast('memorySlots', modules, 'measured', note),
    ...atLeast('memoryPerSlotMaxGB', largestGB, 'measured', note),
    ...(processorGB === undefined
      ? []
      : atLeast('memoryMaxGB', Math.min(totalGB, processorGB), 'measured', note)),
  ]
}

function ofCard(fitted: GraphicsCard | undefined, change: Change, isSameFront: boolean): Claim[] {
  if (fitted === undefined || !known(fitted.thicknessMm)) return []
  const { thicknessMm, lengthMm } = fitted
  const cards = change.add.filter((part) => part.kind === 'card')
  const isThinner = cards.every((card) => known(card.thicknessMm) && card.thicknessMm <= thicknessMm)
  const note = 'the card in it today'
  return [
    ...atLeast('cardSlots', slotsOf(thicknessMm), 'measured', note),
    ...(isThinner && isSameFront ? atLeast('cardRoomMm', lengthMm, 'measured', note) : []),
  ]
}

/**
 * What a machine proves by being together, where the board's own row is silent: the board has the socket of the
 * processor that sits in it and takes the type of memory that is in its slots. Both hang on the board, so they hold
 * when processor or memory go.
 */
export function provenTogether({ board, processor, memory }: Build): Claim[] {
  if (board === undefined) return []
  const [kit] = memory
  const isOneType = memory.every(({ memoryType }) => memoryType === kit?.memoryType)
  return [
    ...(processor?.socket === undefined || board.socket !== undefined || board.chipset !== undefined
      ? []
      : [
          {
            key: 'socket',
            value: processor.socket,
            source: 'measured',
            note: 'the processor in it',
          } as const,
        ]),
    ...(kit?.memoryType === undefined || !isOneType || board.memoryType !== undefined
      ? []
      : [
          { key: 'memoryType', value: kit.memoryType, source: 'measured', note: 'the memory in it' } as const,
        ]),
  ]
}
