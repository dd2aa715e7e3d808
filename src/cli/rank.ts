import { type Answer, partsToldOf, toldRanking } from '../core/answer.ts'
import type { Option } from '../core/ranking/option.ts'
import type { WhyNot } from '../core/ranking/whyNot.ts'
import { EXIT, failed, ok, type Result } from '../problem.ts'
import { listFindable } from '../store/findable.ts'
import type { Store } from '../store/open.ts'
import { loadParts } from '../store/parts.ts'
import { listShelfItems } from '../store/shelf.ts'
import { answerQuestion } from '../uses/answerQuestion.ts'
import { viewWhyNot, type WhyNotAsk } from '../uses/whyNot.ts'
import { LATER_EN } from '../words/en/later.ts'
import { WHY_EN } from '../words/en/why.ts'
import { figuresFor } from '../words/figures.ts'
import { sayFinding } from '../words/findings.ts'
import { sayLater } from '../words/later.ts'
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
import { saySound, sayTooLoud } from '../words/quiet.ts'
import { saySpace } from '../words/space.ts'
import { placeWords, priceLimitWords } from '../words/whyNot.ts'
import type { Command, Flags, Terminal } from './command.ts'
import { printJson, report, sayingFit } from './command.ts'
import { besideShown, rankDocument } from './rankDocument.ts'
import { withShopOf } from './shopOfFolder.ts'

export const rankCommand: Command = {
  name: 'rank',
  operands: '[SHOPFOLDER] QUESTION',
  says: 'Ranks what the shelf allows for a question, most useful gain for the money first. With a folder of tables it needs no database.',
  options: ['why-not'],
  count: [1, 2],
  run: async (operands, flags, terminal) => {
    const [folder = '', ofFolder] = operands
    if (ofFolder !== undefined) return rankFolder(folder, ofFolder, flags, terminal)
    const questionId = folder
    if (flags['why-not'] !== undefined) {
      const next = 'goes with a folder of tables: stillfits rank SHOPFOLDER QUESTION --why-not PART.'
      return report(failed({ code: 'not allowed', field: '--why-not', next }).problems, flags, terminal)
    }
    const store = await terminal.openStore()
    const answer = await sayingFit(store, terminal, () => answerQuestion(store, questionId, terminal.now()))
    if (!answer.ok) return report(answer.problems, flags, terminal)
    if (flags.json) printJson({ ...toldRanking(answer.value), ...besideShown(answer.value) }, terminal)
    else terminal.out(`${rankingText(answer.value)}\n`)
    return EXIT.done
  },
}

/** The same from a folder of tables, without a database: as text, or as the document of rank.schema.json. */
async function rankFolder(
  folder: string,
  questionId: string,
  flags: Flags,
  terminal: Terminal,
): Promise<number> {
  const at = terminal.now()
  const ranked = await withShopOf(folder, at, async (store) => {
    const answer = await sayingFit(store, terminal, () => answerQuestion(store, questionId, at))
    if (!answer.ok || flags['why-not'] === undefined) return answer.ok ? ok({ answer: answer.value }) : answer
    const ask = await whyNotAsk(store, flags['why-not'])
    const view = ask.ok ? await viewWhyNot(store, questionId, ask.value, at) : ask
    return view.ok ? ok({ answer: answer.value, told: view.value.told }) : view
  })
  if (!ranked.ok) return report(ranked.problems, flags, terminal)
  const { answer, told } = ranked.value as { answer: Answer; told?: WhyNot | undefined }
  if (flags.json) printJson(rankDocument(answer, told), terminal)
  else {
    const figures = figuresFor(answer.inputs.shop)
    const where = told === undefined ? [] : placeWords(told, [...answer.inputs.parts, told.part], figures)
    const budget = answer.inputs.question.budgetMinor
    const prices =
      told === undefined
        ? []
        : priceLimitWords(told, budget === undefined ? '' : figures.money(budget), figures)
    const asked = told === undefined ? [] : ['', `Why not ${told.part.name}`, ...where, ...prices]
    terminal.out(`${[rankingText(answer), ...asked].join('\n')}\n`)
  }
  return EXIT.done
}

/** An item of the shelf, a part that could be bought, or a part by its key. */
async function whyNotAsk(store: Store, named: string): Promise<Result<WhyNotAsk>> {
  const items = await listShelfItems(store.db)
  const ofPart = items.find(({ partId }) => partId === named)
  if (items.some(({ id }) => id === named)) return ok({ itemId: named })
  if ((await listFindable(store.db)).some(({ findable }) => findable.id === named))
    return ok({ findableId: named })
  if (ofPart !== undefined) return ok({ itemId: ofPart.id })
  const [part] = await loadParts(store.db, [named])
  if (part !== undefined) return ok({ kind: part.kind, words: part.id })
  const next =
    'is no item of the shelf, no part that could be bought and no part of this folder. Give one of their keys.'
  return failed({ code: 'not found', field: '--why-not', got: named, next })
}

/** The ranking as plain lines for a terminal: ranked, without a number, one fact missing, ruled out. */
export function rankingText(answer: Answer): string {
  const { question, parts, shop, work } = answer.inputs
  const told = partsToldOf(answer.inputs)
  const figures = figuresFor(shop)
  const lookup = {
    partName: (id: string) => partWords(told, id),
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
      ...saySound(option.change, answer.sound, figures, lookup.partName).map((text) => `    ${text}`),
    ]
  }
  const section = (head: string, lines: readonly string[]) => (lines.length === 0 ? [] : ['', head, ...lines])
  const { ranking } = answer
  const space = saySpace(answer, figures, {
    part: lookup.partName,
    finding: (finding) => [sayFinding(finding, figures, lookup).builder],
  })
  return [
    `${question.machineTag}: ${question.words}`,
    ...(answer.inputs.gainFailed === true ? ['', WHY_EN.failed] : []),
    ...section('Ranked, most useful gain for the money first', ranking.ranked.flatMap(line)),
    ...(space === undefined
      ? []
      : section(space.head, [
          ...space.notes,
          ...space.rows.flatMap(({ verdict, what, says }) => [
            `- ${what}: ${verdict}`,
            ...says.map((text) => `    ${text}`),
          ]),
        ])),
    ...section(
      LATER_EN.head,
      sayLater(answer, figures, {
        part: lookup.partName,
        option: (option) => optionWords(option, parts),
      }).flatMap(({ what, says, wins }) => [
        `- ${what}${wins ? ` [${LATER_EN.wins}]` : ''}`,
        ...says.map((text) => `    ${text}`),
      ]),
    ),
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
        ...(r.wish === 'quiet' && answer.sound !== undefined
          ? sayTooLoud([r.partId], answer.sound, figures, lookup.partName).map((text) => `    ${text}`)
          : []),
      ]),
    ),
  ].join('\n')
}
