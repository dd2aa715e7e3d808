import type { FitCase } from './case.ts'
import { processorFirmware } from './processorFirmware.ts'
import { processorGeneration } from './processorGeneration.ts'
import { processorPower } from './processorPower.ts'
import { processorSocket } from './processorSocket.ts'

/** Socket, family, generation, firmware, the board's sustained power, a picture at the end. */
export const processorCases: readonly FitCase[] = [
  ...processorSocket,
  ...processorGeneration,
  ...processorFirmware,
  ...processorPower,
]
