import type { Language } from '../core/language.ts'
import { ANSWER_DE } from './de/answer.ts'
import { ASKED_DE } from './de/asked.ts'
import { CAUTION_DE } from './de/cautions.ts'
import { CONSENT_DE } from './de/consent.ts'
import { CUSTOMER_LIMITS_DE } from './de/customerLimits.ts'
import { FINDING_DE, FRAMES_DE } from './de/findings.ts'
import { FORM_DE } from './de/form.ts'
import { ASKED_BY_DE, GLOSSES_DE } from './de/glosses.ts'
import { HOME_SHEET_DE, JOB_STEPS_DE } from './de/homeSheet.ts'
import { LATER_DE } from './de/later.ts'
import { LIMIT_DE, LIMIT_FRAMES_DE, SOURCE_DE, SUPPORT_DE } from './de/limits.ts'
import { MAILS_DE } from './de/mails.ts'
import { OWNER_HISTORY_DE } from './de/ownerHistory.ts'
import { OWNER_DE } from './de/ownerPage.ts'
import { PERSON_DE } from './de/ownerPerson.ts'
import { OWNER_READING_DE } from './de/ownerReading.ts'
import { OWNER_FORM_DE } from './de/questionForm.ts'
import { QUIET_DE } from './de/quiet.ts'
import { ROUND_OWNER_DE } from './de/roundsOwner.ts'
import { LIMITS_SHEET_DE } from './de/sheet.ts'
import { ASK_OWNER_DE, FIGURES_DE, PROMISE_DE, SALE_LETTER_DE, SHEET_MAIL_DE, TOLD_DE } from './de/small.ts'
import { SPACE_DE } from './de/space.ts'
import { SPEC_DE } from './de/specs.ts'
import { ANSWER_EN } from './en/answer.ts'
import { ASKED_EN } from './en/asked.ts'
import { ASK_OWNER_EN } from './en/askOwner.ts'
import { CAUTION_WORDS } from './en/cautions.ts'
import { CONSENT_EN } from './en/consent.ts'
import { CUSTOMER_LIMITS_EN } from './en/customerLimits.ts'
import { FIGURES_EN } from './en/figures.ts'
import { FINDING_WORDS, FRAMES, type OwnerFindingWords } from './en/findings.ts'
import { FORM_EN } from './en/form.ts'
import { ASKED_BY_EN, GLOSSES_EN } from './en/glosses.ts'
import { HOME_SHEET_EN } from './en/homeSheet.ts'
import { JOB_EN } from './en/job.ts'
import { LATER_EN } from './en/later.ts'
import { LIMIT_FRAMES, LIMIT_WORDS, SOURCE_WORDS, SUPPORT_WORDS } from './en/limits.ts'
import { LIMITS_SHEET_EN } from './en/limitsSheet.ts'
import { MAILS_EN } from './en/mails.ts'
import { OWNER_HISTORY_EN } from './en/ownerHistory.ts'
import { OWNER_EN } from './en/ownerPage.ts'
import { PERSON_EN } from './en/ownerPerson.ts'
import { OWNER_READING_EN } from './en/ownerReading.ts'
import { OWNER_FORM_EN } from './en/questionForm.ts'
import { QUIET_EN } from './en/quiet.ts'
import { ROUND_OWNER_EN } from './en/roundsOwner.ts'
import { SELL_EN } from './en/sell.ts'
import { SHEET_MAIL_EN } from './en/sheetMail.ts'
import { SPACE_EN } from './en/space.ts'
import { SPEC_WORDS } from './en/specs.ts'
import type { Translated } from './translated.ts'

/** What owners read in their language, table by table. Pages for builders read the English ones as they are. */
const EN = {
  answer: ANSWER_EN,
  asked: ASKED_EN,
  askedBy: ASKED_BY_EN,
  askOwner: ASK_OWNER_EN,
  cautions: CAUTION_WORDS,
  consent: CONSENT_EN,
  customerLimits: CUSTOMER_LIMITS_EN,
  figures: FIGURES_EN,
  form: FORM_EN,
  frames: FRAMES,
  glosses: GLOSSES_EN,
  homeSheet: HOME_SHEET_EN,
  jobSteps: JOB_EN.steps,
  later: LATER_EN,
  limitFrames: LIMIT_FRAMES,
  limits: LIMIT_WORDS,
  mails: MAILS_EN,
  owner: OWNER_EN,
  ownerForm: OWNER_FORM_EN,
  ownerHistory: OWNER_HISTORY_EN,
  ownerPerson: PERSON_EN,
  ownerReading: OWNER_READING_EN,
  promise: { said: JOB_EN.promise.said, scatter: JOB_EN.promise.scatter },
  quiet: QUIET_EN,
  roundOwner: ROUND_OWNER_EN,
  saleLetter: SELL_EN.letter,
  sheet: LIMITS_SHEET_EN,
  sheetMail: SHEET_MAIL_EN,
  sources: SOURCE_WORDS,
  space: SPACE_EN,
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
  consent: CONSENT_DE,
  customerLimits: CUSTOMER_LIMITS_DE,
  figures: FIGURES_DE,
  findings: FINDING_DE,
  form: FORM_DE,
  frames: FRAMES_DE,
  glosses: GLOSSES_DE,
  homeSheet: HOME_SHEET_DE,
  jobSteps: JOB_STEPS_DE,
  later: LATER_DE,
  limitFrames: LIMIT_FRAMES_DE,
  limits: LIMIT_DE,
  mails: MAILS_DE,
  owner: OWNER_DE,
  ownerForm: OWNER_FORM_DE,
  ownerHistory: OWNER_HISTORY_DE,
  ownerPerson: PERSON_DE,
  ownerReading: OWNER_READING_DE,
  promise: PROMISE_DE,
  quiet: QUIET_DE,
  roundOwner: ROUND_OWNER_DE,
  saleLetter: SALE_LETTER_DE,
  sheet: LIMITS_SHEET_DE,
  sheetMail: SHEET_MAIL_DE,
  sources: SOURCE_DE,
  space: SPACE_DE,
  specs: SPEC_DE,
  supports: SUPPORT_DE,
  told: TOLD_DE,
}

const TABLES: Readonly<Record<Language, Tables>> = { en: { ...EN, findings: FINDING_WORDS }, de: DE }

export const wordsIn = (language: Language): Tables => TABLES[language]
