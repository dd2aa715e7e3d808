import type { Language } from '../core/language.ts'
import { ANSWER_EN } from './en/answer.ts'
import { ASKED_EN } from './en/asked.ts'
import { ASK_OWNER_EN } from './en/askOwner.ts'
import { CAUTION_WORDS } from './en/cautions.ts'
import { FIGURES_EN } from './en/figures.ts'
import { FINDING_WORDS, FRAMES, type OwnerFindingWords } from './en/findings.ts'
import { ASKED_BY_EN, GLOSSES_EN } from './en/glosses.ts'
import { JOB_EN } from './en/job.ts'
import { LIMIT_FRAMES, LIMIT_WORDS, SOURCE_WORDS, SUPPORT_WORDS } from './en/limits.ts'
import { LIMITS_SHEET_EN } from './en/limitsSheet.ts'
import { MAILS_EN } from './en/mails.ts'
import { SELL_EN } from './en/sell.ts'
import { SHEET_MAIL_EN } from './en/sheetMail.ts'
import { SPEC_WORDS } from './en/specs.ts'
import type { Forms } from './say.ts'

/** The shape of a table in another language: every key of it, every sentence its own. */
export type Translated<T> = T extends string
  ? string
  : T extends (...values: infer V) => infer S
    ? (...values: V) => Translated<S>
    : T extends readonly (infer E)[]
      ? readonly Translated<E>[]
      : T extends Forms
        ? Forms
        : { readonly [K in keyof T]: Translated<T[K]> }

/** What owners read in their language, table by table. Pages for builders read the English ones as they are. */
const EN = {
  answer: ANSWER_EN,
  asked: ASKED_EN,
  askedBy: ASKED_BY_EN,
  askOwner: ASK_OWNER_EN,
  cautions: CAUTION_WORDS,
  figures: FIGURES_EN,
  frames: FRAMES,
  glosses: GLOSSES_EN,
  limitFrames: LIMIT_FRAMES,
  limits: LIMIT_WORDS,
  mails: MAILS_EN,
  promise: { said: JOB_EN.promise.said, scatter: JOB_EN.promise.scatter },
  saleLetter: SELL_EN.letter,
  sheet: LIMITS_SHEET_EN,
  sheetMail: SHEET_MAIL_EN,
  sources: SOURCE_WORDS,
  specs: SPEC_WORDS,
  supports: SUPPORT_WORDS,
  told: JOB_EN.told,
}

/** All tables of one language: a key that is missing does not compile. */
export type Tables = Translated<typeof EN> & { readonly findings: OwnerFindingWords }

const TABLES: Readonly<Record<Language, Tables>> = { en: { ...EN, findings: FINDING_WORDS } }

export const wordsIn = (language: Language): Tables => TABLES[language]
