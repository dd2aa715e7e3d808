import { classPowerW } from '../../facts/powerClasses.ts'
import type { Processor } from '../../part.ts'
import { isUsable, type Spec, spec } from '../spec.ts'

/** A processor's sustained limit in W: its own figure, else the published one where its name allows only one. */
export function limitPower(processor: Processor | undefined): Spec<number> {
  const own = spec(processor, 'processor', 'limitPowerW')
  if (own.value !== undefined || processor === undefined || isUsable(processor.limitPowerW)) return own
  return { ...own, value: classPowerW(processor.generation, processor.processorClass) }
}
