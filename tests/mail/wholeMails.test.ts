import { describe, expect, test } from 'vitest'
import type { Finding } from '../../src/core/fit/finding.ts'
import { GRADES, type Grade } from '../../src/core/gain/gain.ts'
import { LANGUAGES } from '../../src/core/language.ts'
import type { Claim } from '../../src/core/limits/limit.ts'
import type { Part } from '../../src/core/part.ts'
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
  line,
  NARROW,
  NO_ROOM_KNOWN,
  NO_SLOTS,
  NOTHING,
  noNumber,
  option,
  PARTS,
  SHORT_ENOUGH,
  useful,
} from '../words/answers.ts'

// The text of whole mails, for every verdict and grade, in both languages: small files to be read by a person. A change
// of words shows there, line by line.

const FINDINGS: Readonly<Record<Verdict, Finding>> = {
  fits: SHORT_ENOUGH,
  'fits slower': NARROW,
  'fits after work': finding({
    rule: 'graphics.length',
    verdict: 'fits after work',
    partId: 'C-NEW',
    values: { cardMm: 236, roomMm: 225, freeMm: 250, overMm: 0 },
    needs: [{ work: 'move front fan' }],
    cautions: ['hot-parts', 'esd'],
  }),
  "can't tell": { ...NO_ROOM_KNOWN, partId: 'C-NEW', values: { cardMm: 236 } },
  'does not fit': { ...NO_SLOTS, partId: 'C-NEW' },
}

/** What is known of the room in the case where a fan has to move for it, and where the card is too long to tell. */
const claimsOf = (verdict: Verdict): readonly Claim[] =>
  verdict === 'fits after work'
    ? [
        { key: 'cardRoomMm', value: 225, source: 'measured' },
        { key: 'cardRoomFreeMm', value: 250, source: 'measured' },
      ]
    : []

/** Where it cannot be told, the new card is thicker than the one in it, whose length shows nothing then. */
const partsOf = (verdict: Verdict): readonly Part[] =>
  verdict === "can't tell"
    ? PARTS.map((one) => (one.kind === 'card' && one.id === 'C-NEW' ? { ...one, thicknessMm: 50 } : one))
    : PARTS

/** One game, so that a mail can be read in a minute. */
const TITLES = [{ id: 'winter', name: 'Long Winter' }]

/** As the model gives them: of an estimate no run made the end that it is about. */
function graded(grade: Grade, cardId = 'C-NEW'): Pick<Option, 'gains' | 'useful'> {
  if (grade === 'no number') return { gains: [noNumber('winter', 42.3, cardId)], useful: undefined }
  const known = gain('winter', 42.3, 63.1, { low: 58.6, high: 68, sdAfter: 0.058, grade, slow: [31, 47] })
  if (known.grade === 'no number') throw new Error('a gain with a grade has a number')
  const after = grade === 'measured' ? known.after : { ...known.after, runIds: [] }
  const before = grade === 'estimated' ? { ...known.before, runIds: [], onThisMachine: false } : known.before
  return {
    gains: [{ ...known, before, after }],
    // 63.1 of 42.3 are 49 % more, 58.6 are 39 %, 68 are 61 %.
    useful: useful(49, 11, { grade, countedTitleIds: ['winter'] }),
  }
}

/** The fan in front is moved for it, for $8. */
const withFanMoved = {
  ...option({
    parts: ['C-NEW'],
    work: ['move front fan'],
    lines: [...CARD.price.lines, line('work', 'move front fan', 800, { minutes: 10 })],
  }),
  id: CARD.id,
}

/** The game is below what is wanted today. */
const BELOW: Ranking = { ...NOTHING, titlesAtTargetToday: 0, today: [gain('winter', 42.3, 42.3)] }

function rankingOf(verdict: Verdict, grade: Grade): Ranking {
  const { gains, useful: gained } = graded(grade)
  if (verdict === 'does not fit') {
    const kit = {
      ...KIT,
      ...graded(grade, 'C-OLD'),
      pctPer100: 158,
      titlesAtTarget: gained === undefined ? 0 : 1,
      worthTheVisit: grade !== 'no number',
    }
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
    ...(verdict === 'fits after work' && withFanMoved),
    verdict,
    findings: verdict === 'fits slower' ? [NARROW, SHORT_ENOUGH] : [FINDINGS[verdict]],
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
        const answer = answerOf({
          customer,
          titles: TITLES,
          ranking: rankingOf(verdict, grade),
          claims: claimsOf(verdict),
          parts: partsOf(verdict),
        })
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
