import type { Language } from '../core/language.ts'
import { ANSWER_DE } from './de/answer.ts'
import { ASKED_DE } from './de/asked.ts'
import { CAUTION_DE } from './de/cautions.ts'
import { FINDING_DE, FRAMES_DE } from './de/findings.ts'
import { ASKED_BY_DE, GLOSSES_DE } from './de/glosses.ts'
import { LIMIT_DE, LIMIT_FRAMES_DE, SOURCE_DE, SUPPORT_DE } from './de/limits.ts'
import { MAILS_DE } from './de/mails.ts'
import { ROUND_OWNER_DE } from './de/roundsOwner.ts'
import { LIMITS_SHEET_DE } from './de/sheet.ts'
import { ASK_OWNER_DE, FIGURES_DE, PROMISE_DE, SALE_LETTER_DE, SHEET_MAIL_DE, TOLD_DE } from './de/small.ts'
import { SPEC_DE } from './de/specs.ts'
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
import { ROUND_OWNER_EN } from './en/roundsOwner.ts'
import { SELL_EN } from './en/sell.ts'
import { SHEET_MAIL_EN } from './en/sheetMail.ts'
import { SPEC_WORDS } from './en/specs.ts'
import type { Translated } from './translated.ts'

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
  roundOwner: ROUND_OWNER_EN,
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

const DE: Tables = {
  answer: ANSWER_DE,
  asked: ASKED_DE,
  askedBy: ASKED_BY_DE,
  askOwner: ASK_OWNER_DE,
  cautions: CAUTION_DE,
  figures: FIGURES_DE,
  findings: FINDING_DE,
  frames: FRAMES_DE,
  glosses: GLOSSES_DE,
  limitFrames: LIMIT_FRAMES_DE,
  limits: LIMIT_DE,
  mails: MAILS_DE,
  promise: PROMISE_DE,
  roundOwner: ROUND_OWNER_DE,
  saleLetter: SALE_LETTER_DE,
  sheet: LIMITS_SHEET_DE,
  sheetMail: SHEET_MAIL_DE,
  sources: SOURCE_DE,
  specs: SPEC_DE,
  supports: SUPPORT_DE,
  told: TOLD_DE,
}

const TABLES: Readonly<Record<Language, Tables>> = { en: { ...EN, findings: FINDING_WORDS }, de: DE }

export const wordsIn = (language: Language): Tables => TABLES[language]
