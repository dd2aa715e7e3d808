import { type Generation, generationNamed } from '../../facts/generations.ts'
import { rule } from '../rule.ts'
import { given, type Spec, spec } from '../spec.ts'

/**
 * Firmware that drops old processors: some late versions for AM4 boards no longer start the oldest ones, so an update
 * of such a machine needs the last version of the board maker's list that does. Silent about all others.
 */
export const workFirmware = rule({
  id: 'work.firmware',
  source: {
    kind: 'vendor',
    text: "AMD on AM4 firmware for Ryzen 5000: support of older processors may go; the board maker's list decides",
  },
  reads: [],
  verdicts: ['fits'],
  applies: ({ after, change }) =>
    change.work.includes('firmware update') && OLDEST.has(generationNamed(after.processor?.generation) ?? ''),
  about: ({ after }) => after.processor,
  specs: ({ after }): { lastFirmware: Spec<string>; generation: Spec<string> } => {
    const generation = generationNamed(after.processor?.generation) ?? ''
    const lines = Object.entries(after.board?.lastFirmwareByGeneration ?? {})
    const last = lines.find(([name]) => generationNamed(name) === generation)?.[1]
    const { missing } =
      after.board === undefined
        ? spec(after.board, 'board', 'name')
        : {
            missing: { spec: 'lastFirmwareByGeneration', partId: after.board.id, partName: after.board.name },
          }
    return { lastFirmware: { value: last, missing }, generation: given(generation, 'generation') }
  },
  values: ({ lastFirmware, generation }) => ({ lastFirmware, generation }),
  verdict: () => 'fits',
  cautions: () => ['one-way', 'recovery-key', 'no-power-loss'],
})

/** The first processors of the socket, which the later versions had to make room for (AMD, Ryzen 5000 on 400 series). */
const OLDEST: ReadonlySet<string> = new Set<Generation>([
  'A-series / Athlon X4 (Bristol Ridge)',
  'Ryzen 1000 (Zen)',
])
