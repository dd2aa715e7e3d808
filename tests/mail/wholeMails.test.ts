import { describe, expect, test } from 'vitest'
import type { Finding } from '../../src/core/fit/finding.ts'
import { GRADES, type Grade } from '../../src/core/gain/gain.ts'
import { LANGUAGES } from '../../src/core/language.ts'
import type { Option, Ranking } from '../../src/core/ranking/option.ts'
import { VERDICTS, type Verdict } from '../../src/core/verdict.ts'
import { renderAnswer } from '../../src/mail/render.ts'
import { letterOf } from '../../src/words/answer.ts'
import {
  answerOf,
  CARD,
  finding,
  gain,
  KIT,
  NARROW,
  NO_ROOM_KNOWN,
  NO_SLOTS,
  NOTHING,
  noNumber,
  useful,
} from '../words/answers.ts'

// The text of whole mails, for every verdict and grade, in both languages: small files to be read by a person. A change
// of words shows there, line by line.

const FINDINGS: Readonly<Record<Verdict, Finding>> = {
  fits: finding({ rule: 'graphics.length', values: { cardMm: 236, roomMm: 286 }, partId: 'C-NEW' }),
  'fits slower': NARROW,
  'fits after work': finding({
    rule: 'power.plugs',
    verdict: 'fits after work',
    partId: 'C-NEW',
    values: { needPlugs: { pin6: 0, pin8: 2, pin16: 0 }, havePlugs: { pin6: 1, pin8: 1, pin16: 0 } },
    needs: [{ part: 'supply' }],
    cautions: ['psu-cables'],
  }),
  "can't tell": { ...NO_ROOM_KNOWN, partId: 'C-NEW', values: { cardMm: 236 } },
  'does not fit': { ...NO_SLOTS, partId: 'C-NEW' },
}

/** One game, so that a mail can be read in a minute. */
const TITLES = [{ id: 'winter', name: 'Long Winter' }]

/** As the model gives them: of an estimate no run made the end that it is about. */
function graded(grade: Grade): Pick<Option, 'gains' | 'useful'> {
  if (grade === 'no number') return { gains: [noNumber('winter', 42.3)], useful: undefined }
  const known = gain('winter', 42.3, 63.1, { low: 58.1, high: 68.9, grade, slow: [31, 47] })
  if (known.grade === 'no number') throw new Error('a gain with a grade has a number')
  const after = grade === 'measured' ? known.after : { ...known.after, runIds: [] }
  const before = grade === 'estimated' ? { ...known.before, runIds: [], onThisMachine: false } : known.before
  return {
    gains: [{ ...known, before, after }],
    // 63.1 of 42.3 are 49 % more, 58.1 are 37 %.
    useful: useful(49, 12, { grade, countedTitleIds: ['winter'] }),
  }
}

/** The game is below what is wanted today. */
const BELOW: Ranking = { ...NOTHING, titlesAtTargetToday: 0, today: [gain('winter', 42.3, 42.3)] }

function rankingOf(verdict: Verdict, grade: Grade): Ranking {
  const { gains, useful: gained } = graded(grade)
  if (verdict === 'does not fit') {
    const kit = { ...KIT, ...graded(grade), pctPer100: 158, worthTheVisit: grade !== 'no number' }
    const row = {
      shelfItemId: 'K-CARD',
      partId: 'C-NEW',
      verdict,
      findings: [FINDINGS[verdict]],
      lacking: [],
    }
    return gained === undefined
      ? { ...BELOW, withoutNumber: [kit], ruledOut: [row] }
      : {
          ...BELOW,
          ranked: [kit],
          groups: [[kit.id]],
          bestPerMoneyId: kit.id,
          bestInBudgetId: kit.id,
          ruledOut: [row],
        }
  }
  const card: Option = {
    ...CARD,
    verdict,
    findings: [FINDINGS[verdict]],
    gains,
    useful: gained,
    pctPer100: 34.5,
    titlesAtTarget: gained === undefined ? 0 : 1,
    worthTheVisit: gained !== undefined,
  }
  if (verdict === "can't tell") return { ...BELOW, needsAFact: [card] }
  return gained === undefined
    ? { ...BELOW, withoutNumber: [card] }
    : {
        ...BELOW,
        ranked: [card],
        groups: [[card.id]],
        bestPerMoneyId: card.id,
        bestInBudgetId: card.id,
      }
}

describe.each(LANGUAGES)('%s', (language) => {
  const customer = { id: 'K-1', name: 'Imke Sander', email: 'imke@example.org', language }

  test.each(VERDICTS)('%s, in every grade, reads as the kept text does', async (verdict) => {
    const mails = await Promise.all(
      GRADES.map(async (grade) => {
        const answer = answerOf({ customer, titles: TITLES, ranking: rankingOf(verdict, grade), shelf: [] })
        const { subject, text, html } = await renderAnswer(
          // What lacks a fact is told with its number where the builder proposes it all the same.
          letterOf(answer, verdict === "can't tell" ? { pickId: CARD.id } : {}),
        )
        expect(html).toContain(`<html lang="${language}`)
        return `${'='.repeat(72)}\n${verdict}, ${grade}\n${'='.repeat(72)}\n${subject}\n\n${text}`
      }),
    )
    const file = `${language}-${verdict.replaceAll(/[^a-z]+/g, '-')}.txt`
    await expect(mails.join('\n')).toMatchFileSnapshot(`./wholeMails/${file}`)
  })
})
