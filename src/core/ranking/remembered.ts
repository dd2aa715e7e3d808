import type { Change } from '../build.ts'
import type { Judged } from '../fit/judgeChange.ts'
import type { GainAsk, LogGain, TitleGain } from '../gain/gain.ts'
import { fittedKey } from '../gain/run.ts'
import type { RankInput } from './rank.ts'

/**
 * The same input, with rules and gain model that are asked each thing once. For many rankings of one question that
 * differ in prices and items alone: neither what fits nor what is gained hangs on them. It lives as long as the caller
 * keeps it; machine, question and parts must stay what they are.
 */
export function remembered(input: RankInput): RankInput {
  const { machine, model } = input
  const judgements = new Map<string, Judged>()
  const gains = new Map<string, TitleGain>()
  const differences = new Map<string, LogGain | undefined>()
  const difference = model.difference?.bind(model)
  return {
    ...input,
    judge: (of, change) =>
      of === machine
        ? once(judgements, changeKey(change), () => input.judge(of, change))
        : input.judge(of, change),
    model: {
      ...model,
      predict: (ask) => once(gains, askKey(ask), () => model.predict(ask)),
      ...(difference && { difference: (ask) => once(differences, askKey(ask), () => difference(ask)) }),
    },
  }
}

function once<T>(known: Map<string, T>, key: string, work: () => T): T {
  if (known.has(key)) return known.get(key) as T
  const fresh = work()
  known.set(key, fresh)
  return fresh
}

const changeKey = ({ add, removeIds, work }: Change): string =>
  JSON.stringify([add.map(({ id }) => id), removeIds, work])

const askKey = ({ titleId, settingId, machineTag, before, after }: GainAsk): string =>
  JSON.stringify([titleId, settingId, machineTag, before && fittedKey(before), after && fittedKey(after)])
