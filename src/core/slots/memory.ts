import type { Build } from '../build.ts'
import { memoryAsItRuns } from '../limits/asItRuns.ts'
import type { Limits } from '../limits/limit.ts'
import type { MemoryType } from '../part.ts'
import { isCount, known, type PlaceState, places } from './place.ts'

export type MemorySlot = { readonly state: PlaceState; readonly moduleGB?: number | undefined }

export type MemorySlots = {
  /** Taken ones first: which slot of the board holds which module is not known, only how many do. */
  readonly slots: readonly MemorySlot[]
  /** Slots of the board; absent = not known, there may be more than are listed. */
  readonly total?: number | undefined
  /** More modules are written down than the board has slots: one of the two is wrong. */
  readonly tooMany: boolean
  readonly takes: {
    readonly memoryType?: MemoryType | undefined
    readonly perSlotMaxGB?: number | undefined
    readonly maxGB?: number | undefined
    /** The lower rate of board and processor; absent while one of them is not known. */
    readonly rateMts?: number | undefined
  }
  /** What all modules hold together; absent where one does not say, or none is written down. */
  readonly fittedGB?: number | undefined
  /** The rate the modules run at today. */
  readonly runsMts?: number | undefined
}

/**
 * Memory slots. A kit that does not say how many modules it has holds at least one; slots beyond what is sure are then
 * nobody's to call free, and so are all of them where no memory is written down: the machine runs on some.
 */
export function memorySlots(build: Build, limits: Limits): MemorySlots {
  const total = known(limits, 'memorySlots')
  const isSure = build.memory.length > 0 && build.memory.every(({ modules }) => isModules(modules))
  const taken: MemorySlot[] = build.memory.flatMap(({ modules, moduleGB }) =>
    places(isModules(modules) ? modules : 1, 'taken').map((state) => ({ state, moduleGB })),
  )
  const tooMany = isCount(total) && taken.length > total
  const left = isCount(total) ? total - taken.length : 0
  const runs = memoryAsItRuns(build, limits)
  return {
    slots: [
      ...taken.map((slot): MemorySlot => (tooMany ? { ...slot, state: "can't tell" } : slot)),
      ...places(left, isSure ? 'free' : "can't tell").map((state) => ({ state })),
    ],
    total: isCount(total) ? total : undefined,
    tooMany,
    takes: {
      memoryType: known(limits, 'memoryType'),
      perSlotMaxGB: known(limits, 'memoryPerSlotMaxGB'),
      maxGB: known(limits, 'memoryMaxGB'),
      rateMts: lowerRate(limits),
    },
    fittedGB: isSure ? sumGB(taken) : undefined,
    runsMts: runs?.rateMts,
  }
}

/** No kit can bring more modules than any board has slots; a figure beyond is a slip. */
const MODULES_MOST = 16
const isModules = (n: number | undefined): n is number => isCount(n) && n > 0 && n <= MODULES_MOST

function lowerRate(limits: Limits): number | undefined {
  const [controller, board] = [known(limits, 'controllerRateMts'), known(limits, 'boardRateMts')]
  return controller === undefined || board === undefined ? undefined : Math.min(controller, board)
}

function sumGB(slots: readonly MemorySlot[]): number | undefined {
  const sum = slots.reduce((gb, { moduleGB }) => gb + (moduleGB ?? Number.NaN), 0)
  return Number.isFinite(sum) ? sum : undefined
}
