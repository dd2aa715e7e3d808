import type { RuleId } from '../../core/fit/finding.ts'
import type { PartlyOf, ValuesOf, VerdictOf } from '../../core/fit/rules.ts'
import { CASE_WORDS } from './caseFindings.ts'
import { COOLING_WORDS } from './coolingFindings.ts'
import { GRAPHICS_WORDS } from './graphicsFindings.ts'
import { MEMORY_WORDS } from './memoryFindings.ts'
import { OFFICE_AND_WORK_WORDS } from './officeFindings.ts'
import { or } from './or.ts'
import { POWER_WORDS } from './powerFindings.ts'
import { STORAGE_WORDS } from './storageFindings.ts'
import { SWAP_WORDS } from './swapFindings.ts'
import { SYSTEM_WORDS } from './systemFindings.ts'

/** What is said about one finding: to the owner, what follows from it, and the builder's line without a full stop. */
export type Said = OwnerSaid & { readonly builder: string }
export type OwnerSaid = { readonly owner: string; readonly next?: string }

/** Values already formatted with their units. */
type Texts<V> = { readonly [N in keyof V]: string }

/** What a sentence may depend on besides the values. */
export type More = {
  /** The time the shop takes for the work a finding asks for, already formatted. */
  readonly minutes?: string | undefined
  /** Set when a row is known and promises nothing; absent when a limit is simply not known. */
  readonly doubt?: string | undefined
}

/** As a method, so that the whole table can be read with the loose texts of a stored finding. */
export type Sentence<V, S = Said> = { say(values: V, more: More): S }['say']

/** A sentence for each rule and each verdict it can give; a missing one does not compile. */
export type FindingWords = WordsOf<Said>

/** The same in another language: what owners read. The builder's line is English. */
export type OwnerFindingWords = WordsOf<OwnerSaid>

type WordsOf<S> = {
  readonly [Id in RuleId]: {
    readonly [D in VerdictOf<Id>]: Sentence<Texts<ValuesOf<Id>>, S>
  } & {
    /** For a missing limit. A missing figure of a part has one sentence for all rules, see FRAMES. */
    readonly "can't tell": Sentence<Partial<Texts<ValuesOf<Id> & PartlyOf<Id>>>, S>
  }
}

/** Sentences around all rules. */
export const FRAMES = {
  ofEarlierRules: (rule: string, verdict: string) => ({
    owner: 'An earlier edition of our rules said so.',
    builder: `${rule}: ${verdict}, by an earlier edition of the rules`,
  }),
  /** Figures of a part that nobody wrote down: of the part the finding is about, or of another. */
  notLookedUp: 'We have not looked up all its figures yet.',
  notLookedUpOf: (partName: string) => `We have not looked up all figures of ${partName} yet.`,
  weLookUp: 'We do that before we promise anything.',
  restIsOurs: 'The rest we look up ourselves.',
  /** A part that is not on record; the label is a whole question. */
  noPart: (label: string) => `We do not know ${label}.`,
  unknown: (labels: readonly string[]) => `not known: ${labels.join(', ')}`,
  check: (doubt: string) => `check: ${doubt}`,
  /** Behind the builder's line of a finding that a lower bound decided. */
  atLeast: (labels: readonly string[]) => `at least, not measured: ${labels.join(', ')}`,
} as const

/** The chipset by name, where the name is known. */
const chipset = (name: string | undefined): string =>
  name === undefined || name === 'not known' ? 'chipset' : `${name} chipset`

export const FINDING_WORDS: FindingWords = {
  'processor.socket': {
    fits: (v) => ({
      owner: 'It goes into your board as it is.',
      builder: `socket ${v.haveSocket} = ${v.needSocket}`,
    }),
    'does not fit': (v) => ({
      owner: `It needs another socket: ${v.needSocket}, and your board has ${v.haveSocket}.`,
      next: 'For that you would need a new board; the cooler may need another mount.',
      builder: `socket ${v.needSocket} into ${v.haveSocket}`,
    }),
    "can't tell": (known) => ({
      owner: `It needs ${or(known.needSocket, 'its socket')}, and we do not know which socket your board has.`,
      builder: `board socket, needs ${or(known.needSocket, '?')}`,
    }),
  },
  'processor.generation': {
    fits: (v) => ({
      owner: `Your board's ${chipset(v.chipset)} takes its generation.`,
      builder: `${v.generation} on ${v.chipset}: ${v.support}, noted from its board maker's list ${v.onBoardList}, runs today ${v.runsToday}`,
    }),
    'does not fit': (v) => ({
      owner: `The ${chipset(v.chipset)} of your board does not take that generation, whatever the socket.`,
      builder: `${v.generation} on ${v.chipset} (family ${v.family}): excluded`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined
        ? {
            owner: "We do not know whether your board's chipset takes that generation.",
            builder: `${or(known.generation, 'generation')} on this chipset`,
          }
        : {
            owner: `Some boards with the ${chipset(known.chipset)} take it and some do not.`,
            next: "We read your board's own list before we promise anything.",
            builder: 'board by board; need name and revision of the board',
          },
  },
  'processor.firmware': {
    fits: (v) => ({
      owner: `Your board's firmware runs it: it needs ${v.needFirmware}, and your board has ${v.haveFirmware}.`,
      builder: `firmware ${v.haveFirmware} >= ${v.needFirmware}`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `The board needs newer firmware first: version ${v.needFirmware} or later; it has ${v.haveFirmware}.`,
      next: minutes === undefined ? 'We do that before it goes in.' : `We do that in ${minutes}.`,
      builder: `firmware ${v.haveFirmware} -> ${v.needFirmware}; old processor stays in for the update`,
    }),
    "can't tell": (known, { doubt }) =>
      doubt === undefined || known.needFirmware === undefined
        ? {
            owner: 'It may need newer firmware, and we do not know which firmware your board has or needs.',
            builder: 'firmware, have or needed',
          }
        : {
            owner: `It needs firmware ${known.needFirmware}; we cannot say whether your board's ${or(known.haveFirmware, 'version')} is older.`,
            next: "We read the dates on the board maker's page.",
            builder: `firmware ${or(known.haveFirmware, '?')} against ${known.needFirmware}`,
          },
  },
  'processor.update': {
    fits: (v) => ({
      owner: `Your board's firmware runs it already: it needs ${v.needFirmware}, and your board has ${v.haveFirmware}.`,
      builder: `firmware ${v.haveFirmware} >= ${v.needFirmware}; update not needed for this`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `It needs firmware ${v.needFirmware} or newer, and the update comes first in this job.`,
      ...(minutes === undefined ? {} : { next: `The update takes ${minutes}.` }),
      builder: `firmware ${v.haveFirmware} -> ${v.needFirmware} or later; old processor stays in for the update`,
    }),
    "can't tell": () => ({
      owner: 'We do not know from which firmware on your board runs it.',
      builder: 'firmware needed, from the board list',
    }),
  },
  'processor.boardPower': {
    fits: (v) => ({
      owner: `Your board can feed it: it takes up to ${v.processorLimitW}, and the board gives ${v.boardProcessorW}.`,
      builder: `limit ${v.processorLimitW} <= board ${v.boardProcessorW} sustained`,
    }),
    'fits slower': (v) => ({
      owner: `It works, held to ${v.boardProcessorW}; at full speed it would take ${v.processorLimitW}.`,
      next: 'What that costs, only a run can say.',
      builder: `limit ${v.processorLimitW} > board ${v.boardProcessorW}: power limit capped`,
    }),
    "can't tell": (known) => ({
      owner: `It takes up to ${or(known.processorLimitW, 'its limit')}, and the board's maker does not say how much it feeds for hours.`,
      builder: `no sustained figure of the board; test at ${or(known.processorLimitW, 'its limit')}`,
    }),
  },
  'processor.plug': {
    fits: (v) => ({
      owner: `Your supply's ${v.plug} processor plug feeds it: it takes ${v.drawW}, and the plug carries ${v.plugW}.`,
      builder: `${v.plug} ${v.plugW} >= ${v.drawW}`,
    }),
    'fits after work': (v) => ({
      owner: `It takes ${v.drawW}, and your supply's ${v.plug} processor plug carries ${v.plugW}.`,
      next: 'It needs a supply with a larger plug.',
      builder: `${v.plug} ${v.plugW} < ${v.drawW}`,
    }),
    "can't tell": () => ({
      owner:
        'It takes more than a small processor plug carries, and we do not know which plug your supply has.',
      builder: 'processor plug of the supply: 4-pin 192 W, 8-pin 384 W',
    }),
  },
  'processor.picture': {
    fits: () => ({
      owner: 'It has graphics of its own, so your screen works without a card.',
      builder: 'own graphics, no card after the change',
    }),
    'does not fit': () => ({
      owner: 'It has no graphics of its own, so without a card your screen stays dark.',
      next: 'Keep a graphics card in, and it fits.',
      builder: 'no graphics unit, no card after the change',
    }),
    "can't tell": () => ({
      owner: 'We do not know whether it shows a picture without a card.',
      builder: 'graphics unit',
    }),
  },
  ...MEMORY_WORDS,
  ...GRAPHICS_WORDS,
  ...POWER_WORDS,
  ...COOLING_WORDS,
  ...STORAGE_WORDS,
  ...CASE_WORDS,
  'case.supply': {
    fits: (v) => ({
      owner: `The supply is of the ${v.supplyForm} kind, and the case takes that.`,
      builder: `${v.supplyForm} in ${v.caseForms}`,
    }),
    'fits after work': (v, { minutes }) => ({
      owner: `The supply is of the small ${v.supplyForm} kind and needs a bracket in your case.`,
      next: minutes === undefined ? 'We fit one.' : `We fit one in ${minutes}.`,
      builder: `${v.supplyForm} in ${v.caseForms} + bracket`,
    }),
    'does not fit': (v) => ({
      owner:
        v.mounting === 'own'
          ? 'The opening of your case is made for its maker’s own supply.'
          : `The supply is of the ${v.supplyForm} kind, and the case takes ${v.caseForms}.`,
      builder: `${v.supplyForm} in ${v.caseForms}, opening ${v.mounting}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether the supply goes into the case.',
      builder: 'supply form and case',
    }),
  },
  ...OFFICE_AND_WORK_WORDS,
  ...SWAP_WORDS,
  ...SYSTEM_WORDS,
}
