import type { Part } from '../../../src/core/part.ts'
import { cardOf, inputsOf, OLD, processorOf } from './small.ts'

/*
 * Worked by hand. A (400.00) has a slower processor than B (500.00); three cards later. With labour of 15.00:
 *   A: 50 today, 70 for 115, 80 for 215, 85 for 315      B: 55 today, 75 for 115, 100 for 215, 130 for 315
 * 100.00 more today save, at 80 FPS: nothing (both need the 200.00 card); at 75: A needs 215, B 115: level with the 100.00;
 * at 90: only B gets there.
 */
const platforms = [
  { name: 'A', parts: platformOf('CPU-OLD', 40_000) },
  { name: 'B', parts: platformOf('CPU-B', 50_000) },
]
function platformOf(processorId: string, priceMinor: number) {
  return OLD.map(({ id, kind }) => {
    const partId = kind === 'processor' ? processorId : id
    return kind === 'processor' ? { partId, priceMinor } : { partId, priceMinor: 0 }
  })
}
const parts: readonly Part[] = [
  ...OLD,
  processorOf('CPU-B', { cores: 8 }),
  ...['ONE', 'TWO', 'THREE'].map((id) => cardOf(id)),
]
/** Both with the three cards on sale. */
export const TWO = inputsOf(
  platforms,
  parts,
  { ONE: 10_000, TWO: 20_000, THREE: 30_000 },
  {
    'CPU-OLD': { 'CARD-OLD': 50, ONE: 70, TWO: 80, THREE: 85 },
    'CPU-B': { 'CARD-OLD': 55, ONE: 75, TWO: 100, THREE: 130 },
  },
)
