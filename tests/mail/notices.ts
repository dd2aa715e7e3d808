// Invented people, parts, titles and prices; one mail of each kind by hand, for tests and for looking at.
import type { Answer } from '../../src/core/answer.ts'
import { buildOf } from '../../src/core/build.ts'
import { measuredModel } from '../../src/core/gain/measured.ts'
import type { Job } from '../../src/core/job/job.ts'
import { heldAgainst, type Kept, type Promised } from '../../src/core/job/promise.ts'
import type { Language } from '../../src/core/language.ts'
import { limitsSheetOf } from '../../src/core/sheet/limitsSheet.ts'
import { letterOf } from '../../src/words/answer.ts'
import { figuresOf } from '../../src/words/figures.ts'
import { askOneMail } from '../../src/words/mails/askOne.ts'
import { type Booked, bookedMail } from '../../src/words/mails/booked.ts'
import { type DoneMail, doneMail } from '../../src/words/mails/done.ts'
import { goneMail } from '../../src/words/mails/gone.ts'
import { notBoughtMail } from '../../src/words/mails/notBought.ts'
import type { Notice } from '../../src/words/mails/notice.ts'
import { offerMail } from '../../src/words/mails/offer.ts'
import { optedOutMail } from '../../src/words/mails/optedOut.ts'
import { receivedMail } from '../../src/words/mails/received.ts'
import { AT, answerOf, CARD, KIT, part, RANKING, SHELF, SHOP, PARTS as SHOP_PARTS } from '../words/answers.ts'

/** Of the very machine the other mails are about, with the new card in it. */
const SHEET_AFTER = limitsSheetOf({
  ...{ titles: [], settings: [], parts: SHOP_PARTS, policy: SHOP.policy, ownRuns: [], warranties: [] },
  machine: {
    tag: 'M-0042',
    build: buildOf(['P-OLD', 'B-1', 'C-NEW', 'S-1'].map(part)),
    claims: [{ key: 'cardSlots', value: 2, source: 'measured' }],
    at: AT,
  },
  model: measuredModel([], SHOP.policy),
})

/** Not bought yet: nobody tested it. */
const NOT_THERE = SHELF.map((item) => ({ ...item, condition: 'new' as const, note: undefined, quantity: 0 }))

const LINK = 'https://bench.example/o/4d1c'

const PROMISED: readonly Promised[] = [
  {
    titleId: 'harbor',
    settingId: 'high',
    beforeFps: 51.2,
    afterFps: 73.4,
    afterFpsLow: 70.8,
    afterFpsHigh: 75.2,
  },
  {
    titleId: 'rally',
    settingId: 'high',
    beforeFps: 115,
    afterFps: 117,
    afterFpsLow: 112.4,
    afterFpsHigh: 121.6,
  },
  {
    titleId: 'winter',
    settingId: 'high',
    beforeFps: 42.3,
    afterFps: 63.1,
    afterFpsLow: 60.9,
    afterFpsHigh: 65.1,
  },
]

const JOB: Job = {
  id: 'J-0007',
  questionId: 'Q-1',
  answerId: 'A-1',
  optionId: CARD.id,
  machineTag: 'M-0042',
  fittedBy: 'shop',
  state: 'booked',
  agreedAt: AT,
  promised: PROMISED,
  agreedMinor: 14_200,
  depositMinor: 4_000,
  bookedFor: '2026-12-05T16:00:00.000Z',
}

const TITLES: Readonly<Record<string, string>> = {
  harbor: 'Salt Harbor',
  rally: 'Ninefold Rally',
  winter: 'Long Winter',
}
const PARTS: Readonly<Record<string, string>> = { 'C-NEW': 'Quarrel 8G', 'C-OLD': 'Quarrel 4G' }
const WHAT: Readonly<Record<'en' | 'de', string>> = {
  en: 'Quarrel 8G',
  de: 'Quarrel 8G',
}
const PRESET: Readonly<Record<'en' | 'de', string>> = { en: '1920×1080, high', de: '1920×1080, hoch' }

const runsOf = (fps: readonly (number | undefined)[]): readonly Kept[] =>
  PROMISED.map((promised, i) => {
    const averageFps = fps[i]
    const run = { id: `R-${i}`, titleId: promised.titleId, settingId: promised.settingId, averageFps }
    // Of a run only title, setting and average count here.
    return heldAgainst(promised, averageFps === undefined ? [] : [run as never])
  })

/** Every notice in one language, by name. */
export function noticesIn(language: Language): Readonly<Record<string, Notice>> {
  const customer = { id: 'K-1', name: 'Imke Sander', email: 'imke@example.org', language }
  const figures = figuresOf(SHOP, customer)
  const parties = { shop: SHOP, customerName: customer.name, tag: 'M-0042' }
  const playing = {
    targetFps: 60,
    titleName: (id: string) => TITLES[id] ?? id,
    settingName: () => PRESET[language],
  }
  const booked: Booked = {
    ...parties,
    ...playing,
    job: JOB,
    what: WHAT[language],
    notPromised: [],
    takesOldParts: true,
    takesKinds: ['card'],
    minutes: 25,
    // Without the $38 for the old card.
    failedMinor: 18_000,
    cautions: [],
    grades: { harbor: 'measured', rally: 'measured', winter: 'measured' },
    board: letterOf(answerOf({ customer })).board,
  }
  const done = (fps: readonly (number | undefined)[], more: Partial<DoneMail> = {}): Notice =>
    doneMail(
      {
        ...parties,
        ...playing,
        job: { ...JOB, state: 'done', settledMinor: 14_200 },
        what: WHAT[language],
        kept: runsOf(fps),
        reports: [],
        outs: [{ id: 'O-1', partId: 'C-OLD', outcome: 'on the shelf', creditMinor: 3_800 }],
        warranties: [
          {
            machineTag: 'M-0042',
            partId: 'C-NEW',
            givenBy: 'shop',
            // Six months from the day it was fitted.
            from: '2026-12-05T16:00:00.000Z',
            until: '2027-06-05T16:00:00.000Z',
          },
        ],
        partName: (id) => PARTS[id] ?? id,
        sheet: SHEET_AFTER,
        ...more,
      },
      figures,
    )
  const answer = (more: Parameters<typeof answerOf>[0] = {}): Answer => answerOf({ customer, ...more })
  // The card is not there any more, so no option has it.
  const withoutCard = answer({
    ranking: {
      ...RANKING,
      ranked: [KIT],
      groups: [[KIT.id]],
      bestPerMoneyId: KIT.id,
      cheapestToTargetId: undefined,
    },
    shelf: SHELF.filter(({ id }) => id !== 'K-CARD'),
  })
  const shelf = SHELF.map((item) => (item.id === 'K-CARD' ? { ...item, quantity: 2 } : item))
  const hrefs = {
    link: LINK,
    yesHref: `${LINK}/yes/8`,
    optOutHref: `${LINK}/stop/8`,
  }
  const offer = { saidYesAt: '2026-05-12T10:00:00.000Z', offeredTo: 5, ...hrefs }
  const gone = {
    saidYesAt: AT,
    what: language === 'en' ? 'the Quarrel 8G graphics card' : 'Grafikkarte Quarrel 8G',
  }
  const received = {
    ...parties,
    question: 'Can it hold 60 in the new one, for about $200?',
    askedAt: '2026-11-26T18:00:00.000Z',
    games: Object.values(TITLES).map((title) => ({ title, setting: PRESET[language] })),
    targetFps: 60,
    budgetMinor: 20_000,
    display: '1920×1080, 75 Hz',
  }
  const ask = {
    ...parties,
    limitKey: 'cardRoomMm',
    decides: ['Broadside 12G'],
    isInside: true,
    askedAt: '2026-11-26T18:00:00.000Z',
  } as const
  return {
    offer: offerMail({ answer: answer({ shelf }), pickId: CARD.id, ...offer }),
    'offer to few': offerMail({ answer: answer(), pickId: KIT.id, ...offer, offeredTo: 1 }),
    'ask one thing': askOneMail(ask, figures),
    'ask one thing, with a page': askOneMail(
      { ...ask, limitKey: 'firmware', isInside: false, decides: [], link: LINK },
      figures,
    ),
    booked: bookedMail(booked, figures),
    'booked, fitted at home': bookedMail(
      {
        ...booked,
        // The card less the old one, without the shop's work: $165 - $38.
        job: {
          ...JOB,
          fittedBy: 'owner',
          bookedFor: undefined,
          agreedMinor: 12_700,
        },
        failedMinor: 16_500,
      },
      figures,
    ),
    'booked, no day yet, one game without a number': bookedMail(
      {
        ...booked,
        job: {
          ...JOB,
          bookedFor: undefined,
          promised: PROMISED.filter(({ titleId }) => titleId !== 'rally'),
        },
        notPromised: ['Ninefold Rally'],
        cautions: ['recovery-key'],
      },
      figures,
    ),
    'done, kept': done([72, 116, 63]),
    'done, better': done([72, 116, 70]),
    'done, missed': done([72, 116, 55], {
      miss:
        language === 'en'
          ? {
              checked: 'driver, temperatures and what runs in the background; all as it should be',
              choices: [
                'Keep it, and pay $40 less: $62 is then left to pay.',
                'Give it back: we put your own card back in, you pay nothing, and your $40 deposit comes back.',
              ],
            }
          : {
              checked: 'Treiber, Temperaturen und Hintergrundprogramme; alles in Ordnung',
              choices: [
                'Sie behalten die Karte und zahlen 40 $ weniger: Dann sind noch 62 $ zu zahlen.',
                'Sie geben sie zurück: Wir bauen Ihre alte Karte wieder ein, Sie zahlen nichts und bekommen die Anzahlung von 40 $ zurück.',
              ],
            },
    }),
    'done, still open': done([72, undefined, 63]),
    'gone, with a next': goneMail({
      answer: withoutCard,
      nextId: KIT.id,
      ...gone,
    }),
    'gone, nothing else': goneMail({ answer: answer(), ...gone }),
    'offer before it is bought': offerMail({
      ...{ answer: answer({ shelf: NOT_THERE }), pickId: CARD.id },
      ...{ ...offer, wantedYeses: 3 },
    }),
    'not bought, with a next': notBoughtMail({ answer: withoutCard, nextId: KIT.id, tooFew: true, ...gone }),
    'not bought, nothing else': notBoughtMail({ answer: answer(), tooFew: false, ...gone }),
    'fewer bought than said yes': goneMail({ answer: answer(), bought: 2, ...gone }),
    'offer before it is bought, to one': offerMail({
      ...{ answer: answer({ shelf: NOT_THERE }), pickId: CARD.id },
      ...{ ...offer, offeredTo: 1, wantedYeses: 1 },
    }),
    'question received': receivedMail({ ...received, answerBy: '2026-11-30T18:00:00.000Z' }, figures),
    'question received, no day': receivedMail({ ...received, games: [], display: undefined }, figures),
    'opted out': optedOutMail({ shop: SHOP, customerName: customer.name, at: AT }, figures),
    'opted out, with a page': optedOutMail(
      { shop: SHOP, customerName: customer.name, at: AT, link: LINK },
      figures,
    ),
  }
}
