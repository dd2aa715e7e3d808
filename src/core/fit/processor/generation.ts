import type { Missing } from '../finding.ts'
import { sameName } from '../names.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { runsGenerationToday } from './today.ts'

/**
 * Processor generation: what the board's chipset takes. `firmware update` fits here, processor.firmware says the
 * rest. `board by board` promises nothing. Two things outrank the chipset's row in either direction: the board
 * maker's own list naming the generation, and the same board running that generation today.
 *
 * Where the sockets differ, processor.socket has said no already and this rule is silent.
 */
export const processorGeneration = rule({
  id: 'processor.generation',
  source: {
    kind: 'vendor',
    text: "chipset makers' processor support tables; the board maker's own processor list decides",
  },
  reads: ['generationSupport'],
  mayRead: ['socket', 'chipset', 'family', 'firmwareNeeded'],
  verdicts: ['fits', 'does not fit'],
  applies: (s, { socket }) => {
    const need = s.after.processor?.socket
    const otherSocket = need !== undefined && socket !== undefined && !sameName(need, socket)
    return s.after.processor !== undefined && touches(s, 'processor', 'board') && !otherSocket
  },
  about: ({ after }) => after.processor,
  specs: ({ after }) => ({ generation: spec(after.processor, 'processor', 'generation') }),
  values: ({ generation }, limits, situation) => ({
    generation,
    support: limits.generationSupport,
    chipset: limits.chipset ?? 'not known',
    family: limits.family ?? 'not known',
    onBoardList: limits.firmwareNeeded !== undefined,
    runsToday: runsGenerationToday(situation),
  }),
  doubts: ({ support, onBoardList, runsToday, generation, chipset }): Missing[] =>
    support === 'board by board' && !onBoardList && !runsToday
      ? [
          {
            limit: 'generationSupport',
            doubt: `${generation} on ${chipset}: the board maker's own list decides`,
          },
        ]
      : [],
  verdict: ({ support, onBoardList, runsToday }) =>
    support !== 'not supported' || onBoardList || runsToday ? 'fits' : 'does not fit',
})
