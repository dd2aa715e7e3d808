import { z } from '@hono/zod-openapi'
import type { ToldRanking } from '../../../core/answer.ts'
import type { Change } from '../../../core/build.ts'
import { CAUTION_IDS, type Finding, RULE_IDS, WORK_IDS } from '../../../core/fit/finding.ts'
import { END_MARKS, type End, GRADES, type RawEnd, type TitleGain } from '../../../core/gain/gain.ts'
import type { NetPrice, Option, RuledOut } from '../../../core/ranking/option.ts'
import type { FactSource } from '../../../core/source.ts'
import { VERDICTS } from '../../../core/verdict.ts'
import { plugsSchema } from '../../../input/parts.ts'
import { instant, key, minor, named, told } from '../describe.ts'
import { limitKey, part, partKind } from './part.ts'
import { fitted } from './run.ts'

export const verdict = z.enum(VERDICTS)

export const factSource: z.ZodType<FactSource> = named(
  'Source',
  z.strictObject({
    kind: z.enum(['standard', 'vendor', 'field data', 'common practice', 'shop policy']),
    text: z.string(),
  }),
)

const doubt = z.string().optional()

export const findingFields = {
  rule: z.enum(RULE_IDS),
  verdict,
  partId: key.optional(),
  values: z.record(
    z.string(),
    z.union([z.number(), z.string(), z.boolean(), plugsSchema, z.array(z.string())]),
  ),
  missing: z.array(
    z.union([
      z.strictObject({ limit: limitKey, doubt }),
      z.strictObject({ spec: z.string(), partId: z.string(), partName: z.string(), doubt }),
    ]),
  ),
  atLeast: z.array(limitKey).optional(),
  needs: z.array(z.union([z.strictObject({ work: z.enum(WORK_IDS) }), z.strictObject({ part: partKind })])),
  cautions: z.array(z.enum(CAUTION_IDS)),
  source: factSource,
}

/** What one rule says about one change. */
export const finding: z.ZodType<Finding> = named('Finding', z.strictObject(findingFields))

const change: z.ZodType<Change> = named(
  'Change',
  z.strictObject({
    add: z.array(part),
    removeIds: z.array(z.string()),
    work: z.array(z.string()),
  }),
)

export const price: z.ZodType<NetPrice> = named(
  'NetPrice',
  z.strictObject({
    lines: z.array(
      z.strictObject({
        what: z.enum(['part', 'opening', 'fee', 'fitting', 'work', 'trade-in', 'tax']),
        ref: z.string(),
        shelfItemId: key.optional(),
        amountMinor: minor,
        minutes: z.number().optional(),
        taxMinor: told(minor, 'Tax on this line, rounded by itself.').optional(),
      }),
    ),
    netMinor: minor,
    paysForItself: z.boolean(),
    costsNothing: z.boolean(),
    unpriced: z.array(z.string()),
    taxBp: told(z.int(), 'Sales tax in hundredths of a percent, where anything is taxed.').optional(),
    taxIncludedMinor: told(minor, 'The tax that the net holds already.').optional(),
    creditTaxBp: told(z.int(), 'The rate by which what comes out lowers the added tax.').optional(),
  }),
)

export const end: z.ZodType<End> = named(
  'End',
  z.strictObject({
    averageFps: z.number(),
    low1Fps: z.number().optional(),
    runIds: z.array(key),
    at: instant,
    onThisMachine: z.boolean(),
  }),
)

const grade = z.enum(GRADES)

/** What the runs of one end say by themselves, before all other runs are heard. */
const rawEnd: z.ZodType<RawEnd> = named(
  'RawEnd',
  z.strictObject({
    averageFps: z.number(),
    low1Fps: z.number().optional(),
    runIds: z.array(key),
    from: instant,
    at: instant,
  }),
)

const probability = z.number().min(0).max(1)
const marks = z.array(z.enum(END_MARKS))

/** What a change is worth in one title: measured by runs of the shop, or estimated from them, as its grade says. */
export const titleGain: z.ZodType<TitleGain> = named(
  'TitleGain',
  z.union([
    z.strictObject({
      grade: z.enum(['measured', 'half measured', 'estimated']),
      titleId: key,
      before: end,
      after: end,
      logGain: z.number(),
      sd: z.number(),
      afterFpsLow: z.number(),
      afterFpsHigh: z.number(),
      disagrees: z.boolean(),
      raw: z.strictObject({ before: rawEnd.optional(), after: rawEnd.optional() }).optional(),
      sdBefore: z.number().optional(),
      sdAfter: z.number().optional(),
      low1: z
        .strictObject({ beforeFps: z.number(), afterFps: z.number(), logGain: z.number(), sd: z.number() })
        .optional(),
      processorLimits: z.strictObject({ before: probability, after: probability }).optional(),
      cardLimits: z.strictObject({ before: probability, after: probability }).optional(),
      marks: z.strictObject({ before: marks.optional(), after: marks.optional() }).optional(),
      atLeast: z.strictObject({ before: z.boolean(), after: z.boolean() }).optional(),
      runAgain: z.boolean().optional(),
    }),
    z.strictObject({
      grade: z.literal('no number'),
      titleId: key,
      because: z.enum([
        'nothing fitted',
        'no run before',
        'no run after',
        'no run',
        'too far apart',
        'not told by runs',
        'unknown part',
        'too uncertain',
      ]),
      before: end.optional(),
      wanted: z.array(z.strictObject({ titleId: key, settingId: key, fitted })),
    }),
  ]),
)

const useful = z.strictObject({
  pct: z.number(),
  pctLow: z.number(),
  pctHigh: z.number(),
  uncappedPct: z.number(),
  grade,
  countedTitleIds: z.array(key),
  missingTitleIds: z.array(key),
})

const optionFields = {
  id: z.string(),
  change,
  shelfItemIds: z.array(key),
  companionPartIds: z.array(key),
  verdict,
  findings: z.array(finding),
  price,
  gains: z.array(titleGain),
  useful: useful.optional(),
  pctPer100: z.number().optional(),
  withinBudget: z.boolean(),
  titlesAtTarget: z.int(),
  worthTheVisit: z.boolean(),
}
const sureOption: z.ZodType<Option> = named('SureOption', z.strictObject(optionFields))

/** A change with everything it needs, its price and its gain. */
export const option: z.ZodType<Option> = named(
  'Option',
  z.strictObject({
    ...optionFields,
    surely: told(
      sureOption,
      'Where a fact is missing: the cheapest way that needs none. Told beside it, never ranked.',
    ).optional(),
  }),
)

/** What does not go in, and why. */
export const ruledOut: z.ZodType<RuledOut> = named(
  'RuledOut',
  z.strictObject({
    shelfItemId: key,
    partId: key,
    verdict,
    findings: z.array(finding),
    wish: z.string().optional(),
    lacking: z.array(z.string()),
  }),
)

/** The same JSON as the command `rank --json`. */
export const ranking: z.ZodType<ToldRanking> = named(
  'Ranking',
  z.strictObject({
    ranked: z.array(option),
    groups: z.array(z.array(z.string())),
    withoutNumber: z.array(option),
    needsAFact: z.array(option),
    ruledOut: z.array(ruledOut),
    checkFirst: z.array(z.strictObject({ option, limits: z.array(limitKey) })),
    bestPerMoneyId: z.string().optional(),
    bestInBudgetId: z.string().optional(),
    cheapestToTargetId: z.string().optional(),
    frontierIds: z.array(z.string()),
    cautiousIds: told(
      z.array(z.string()),
      'Steps of the same frontier for the lower ends, where four of five results lie above; absent in answers kept before bundles of any size were ranked.',
    ).optional(),
    today: z.array(titleGain),
    titlesAtTargetToday: z.int(),
    gainFailed: told(
      z.literal(true),
      'The gain model could not be fitted, so measured runs alone count; absent where it could.',
    ).optional(),
  }),
)
