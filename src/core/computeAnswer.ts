import type { Answer, AnswerInputs, Versions } from './answer.ts'
import { askedOf } from './asked/askedOf.ts'
import { FACTS_VERSION } from './facts/version.ts'
import { judgeChange } from './fit/judgeChange.ts'
import { RULES_VERSION } from './fit/rules.ts'
import type { GainModel } from './gain/gain.ts'
import { measuredModel } from './gain/measured.ts'
import { MODEL_NAME, modelOfExcerpt } from './gain/model/index.ts'
import { asProven, seenMemoryOf } from './limits/fromRuns.ts'
import { limitsOf } from './limits/resolve.ts'
import { laterOf } from './ranking/later.ts'
import { loweredOf } from './ranking/lowered.ts'
import { soundOf } from './ranking/quiet.ts'
import { deskOf, type RankInput, rank } from './ranking/rank.ts'
import { spaceOf } from './ranking/space.ts'

/**
 * Computes an answer from its inputs: limits of the machine today, and the ranking of what the shelf allows.
 * Pure: the same inputs give the same answer, so a stored answer can be computed again from its own snapshot.
 * `at` is the instant of computing, ISO 8601 UTC: what is lowered counts runs as old or not to it.
 */
export function computeAnswer(inputs: AnswerInputs, at: string): Answer {
  const input = rankInputOf(inputs)
  const { machine, question, parts, policy } = input
  const versions: Versions = {
    facts: FACTS_VERSION,
    rules: RULES_VERSION,
    gain: input.model.name,
    ranking: inputs.ranking ?? BEFORE_BUNDLES,
  }
  const ranking = rank(input)
  const desk = deskOf(input)
  const space = spaceOf(input, desk, ranking)
  const asked = askedOf(question, parts, desk, ranking)
  const lowered = loweredOf({
    ...{ question, policy, at, settings: inputs.settings, titles: inputs.titles, runs: inputs.runs },
    ...{ fitted: desk.fittedToday, machineTag: machine.tag },
  })
  return {
    inputs,
    limits: limitsOf(machine.build, machine.claims),
    ranking,
    lowered,
    ...(inputs.found !== undefined && {
      later: laterOf(input, ranking, inputs.found, inputs.itemPrices ?? [], at),
    }),
    ...(space !== undefined && { space }),
    ...(input.sound !== undefined && { sound: input.sound }),
    ...(asked !== undefined && { asked }),
    versions,
    at,
  }
}

/** The ranking of answers that do not say theirs. */
const BEFORE_BUNDLES = '5'

/** What is ranked, out of an answer's inputs. */
export function rankInputOf(inputs: AnswerInputs): RankInput {
  const { question, parts, shelf, work, tradeIns, ownRuns = [], sounds = [] } = inputs
  const { policy } = inputs.shop
  return {
    ...{ question, parts, shelf, work, tradeIns, policy },
    machine: asProven(inputs.machine, ownRuns),
    model: modelFor(inputs),
    judge: (m, change) => judgeChange(m, change, policy),
    seenMemory: seenMemoryOf(ownRuns),
    bundles: inputs.ranking !== undefined,
    sound: soundOf(inputs.machine, question.wishes, sounds, parts, policy),
  }
}

/** The model that the inputs carry; without one, or with one that this version cannot read, what was measured alone. */
export const modelFor = ({ gain, runs, shop }: Pick<AnswerInputs, 'gain' | 'runs' | 'shop'>): GainModel =>
  gain?.model === MODEL_NAME ? modelOfExcerpt(gain) : measuredModel(runs, shop.policy)
