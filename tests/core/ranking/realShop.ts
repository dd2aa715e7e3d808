import { buildOf, partsOf } from '../../../src/core/build.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Part } from '../../../src/core/part.ts'
import type { RankInput } from '../../../src/core/ranking/rank.ts'
import { freeze } from '../freeze.ts'

/**
 * The invented parts of the small shops with the figures that the real rules read: an LGA1200 machine with a Z490
 * board, which takes an 11th generation processor after a firmware update (published platform tables).
 */
function specified(part: Part): Part {
  const even = Number(part.id.at(-1)) % 2 === 0
  switch (part.kind) {
    case 'processor': {
      const generation =
        part.cores === undefined ? undefined : even ? '10th (Comet Lake)' : '11th (Rocket Lake)'
      return { ...part, socket: 'LGA1200', generation, processorClass: 'i5', integratedGraphics: true }
    }
    case 'board':
      return {
        ...{ ...part, socket: 'LGA1200', chipset: 'Z490', form: 'ATX', memoryType: 'DDR4', memoryMaxGB: 128 },
        ...{
          memoryPerSlotMaxGB: 32,
          memoryRateMtsMax: 3200,
          slotPcieGen: 3,
          slotLanes: 16,
          processorPowerW: 100,
        },
        firmwareByGeneration: { '10th (Comet Lake)': '1.00', '11th (Rocket Lake)': '1.60' },
      }
    case 'memory':
      return { ...part, form: 'DIMM' }
    case 'card':
      return { ...part, plugs: { pin6: 0, pin8: (part.boardPowerW ?? 0) > 150 ? 2 : 1, pin16: 0 } }
    case 'supply': {
      const watt = part.ratedW ?? 0
      return {
        ...part,
        form: even ? 'SFX' : 'ATX',
        rail12VW: watt,
        plugs: { pin6: 0, pin8: watt < 500 ? 1 : 2, pin16: 0 },
      }
    }
    case 'case':
      return { ...part, boardForms: ['ATX'], supplyForms: even ? ['ATX', 'SFX'] : ['ATX'] }
    case 'cooler':
      return { ...part, sockets: ['LGA1200'] }
    default:
      return part
  }
}

/** The same shop under the real rules. */
export const withRules = (input: RankInput): RankInput =>
  freeze({
    ...input,
    parts: input.parts.map(specified),
    machine: {
      ...input.machine,
      build: buildOf(partsOf(input.machine.build).map(specified)),
      claims: [{ key: 'firmware', value: '1.20', source: 'entered' }],
    },
    judge: (machine, change) => judgeChange(machine, change, input.policy),
  })

/** A 10th generation i5 runs no memory above 2666 MT/s (Intel's data sheet); an 11th all kits of these shops. */
export const rateMts = (processorId: string): number => (Number(processorId.at(-1)) % 2 === 0 ? 2666 : 3200)
