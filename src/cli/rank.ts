import { type Answer, toldRanking } from '../core/answer.ts'
import type { Option } from '../core/ranking/option.ts'
import { EXIT } from '../problem.ts'
import { answerQuestion } from '../uses/answerQuestion.ts'
import { WHY_EN } from '../words/en/why.ts'
import { figuresFor } from '../words/figures.ts'
import { sayFinding } from '../words/findings.ts'
import {
  checkWords,
  gainForReference,
  gradeWords,
  lackingWords,
  optionWords,
  partWords,
  pickWords,
  priceWords,
  referenceOf,
  usefulWords,
} from '../words/options.ts'
import type { Command } from './command.ts'
import { printJson, report, sayingFit } from './command.ts'

export const rankCommand: Command = {
  name: 'rank',
  operands: 'QUESTION',
  says: 'Ranks what the shelf allows for a question, most useful gain for the money first.',
  options: [],
  count: [1, 1],
  run: async ([questionId = ''], flags, terminal) => {
    const store = await terminal.openStore()
    const answer = await sayingFit(store, terminal, () => answerQuestion(store, questionId, terminal.now()))
    if (!answer.ok) return report(answer.problems, flags, terminal)
    if (flags.json) printJson(toldRanking(answer.value), terminal)
    else terminal.out(`${rankingText(answer.value)}\n`)
    return EXIT.done
  },
}

/** The ranking as plain lines for a terminal: ranked, without a number, one fact missing, ruled out. */
export function rankingText(answer: Answer): string {
  const { question, parts, shop, work } = answer.inputs
  const figures = figuresFor(shop)
  const lookup = {
    partName: (id: string) => partWords(parts, id),
    minutes: (id: string) => work.find((w) => w.work === id)?.minutes,
  }
  const line = (option: Option): string[] => {
    const marks = [gradeWords(option), ...pickWords(option, answer)]
    const gain = gainForReference(option, answer)
    const perMoney =
      gain === undefined ? '' : `, ${figures.gainPct(gain)} for ${figures.money(referenceOf(answer))}`
    const price = priceWords(option, figures)
    return [
      `- ${optionWords(option, parts)}: ${option.verdict}, ${usefulWords(option, figures)}, ${price}${perMoney} [${marks.join('; ')}]`,
      ...option.findings
        .filter((f) => f.verdict !== 'fits')
        .map((f) => `    ${f.verdict}: ${sayFinding(f, figures, lookup).builder}`),
    ]
  }
  const section = (head: string, lines: readonly string[]) => (lines.length === 0 ? [] : ['', head, ...lines])
  const { ranking } = answer
  return [
    `${question.machineTag}: ${question.words}`,
    ...(answer.inputs.gainFailed === true ? ['', WHY_EN.failed] : []),
    ...section('Ranked, most useful gain for the money first', ranking.ranked.flatMap(line)),
    ...section('Fits, but no number yet', ranking.withoutNumber.flatMap(line)),
    ...section('One missing fact decides', ranking.needsAFact.flatMap(line)),
    ...section(
      'Check this first',
      ranking.checkFirst.flatMap((check) => [
        ...line(check.option),
        ...checkWords(check).map((text) => `    ${text}`),
      ]),
    ),
    ...section(
      'Ruled out',
      ranking.ruledOut.flatMap((r) => [
        `- ${partWords(parts, r.partId)}: ${r.verdict}`,
        ...r.findings.map((f) => `    ${sayFinding(f, figures, lookup).builder}`),
        ...[lackingWords(r)].filter((w) => w !== undefined).map((w) => `    ${w}`),
      ]),
    ),
  ].join('\n')
}
