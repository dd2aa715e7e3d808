import { z } from '@hono/zod-openapi'
import { partsOf } from '../../../core/build.ts'
import { RULE_IDS } from '../../../core/fit/finding.ts'
import { judgeChange } from '../../../core/fit/judgeChange.ts'
import { type FitInput, fitInputOf, fitSchema } from '../../../input/fitInput.ts'
import { ok } from '../../../problem.ts'
import { figuresFor } from '../../../words/figures.ts'
import { sayFinding } from '../../../words/findings.ts'
import { partWords } from '../../../words/options.ts'
import { ruleSheet } from '../../../words/rules.ts'
import { named, told } from '../describe.ts'
import { endpoint, pageOf, paging, pieceOf } from '../endpoint.ts'
import { factSource, findingFields, verdict } from '../schemas/ranking.ts'

const said = z.strictObject({
  owner: told(z.string(), 'The owner’s sentence.'),
  next: told(z.string(), 'What follows from it.').optional(),
  builder: told(z.string(), 'The builder’s line.'),
})

const judged = named(
  'Judged',
  z.strictObject({
    verdict: told(verdict, 'The worst of the findings; "can’t tell" where no rule looked.'),
    judged: told(z.boolean(), 'Whether any rule looks at this change on this machine.'),
    findings: z.array(z.strictObject({ ...findingFields, words: said })),
  }),
)

const rule = named(
  'Rule',
  z.strictObject({
    id: z.enum(RULE_IDS),
    says: z.string(),
    reads: told(z.array(z.string()), 'Limits without which it gives no answer.'),
    mayRead: z.array(z.string()),
    thresholds: z.array(z.string()),
    source: factSource,
  }),
)

function judge({ machine, change, policy }: FitInput) {
  const { verdict: worst, findings } = judgeChange(machine, change, policy)
  const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy })
  const parts = [...partsOf(machine.build), ...change.add]
  const lookup = { partName: (id: string) => partWords(parts, id), minutes: () => undefined }
  return {
    // No rule looked, so nothing is known: that is not a "fits".
    verdict: findings.length === 0 ? ("can't tell" as const) : worst,
    judged: findings.length > 0,
    findings: findings.map((f) => ({ ...f, words: sayFinding(f, figures, lookup) })),
  }
}

export const judgingEndpoints = [
  endpoint({
    id: 'fit',
    ...{ method: 'post', path: '/fit', group: 'Judging', scope: 'read' },
    says: 'Judges a change on a machine, both sent along, as the command fit does. Nothing is read from the shop or kept.',
    body: named('FitInput', fitSchema),
    answer: judged,
    run: async (_, { body }) => {
      const input = fitInputOf(body)
      return input.ok ? ok(judge(input.value)) : input
    },
  }),
  endpoint({
    id: 'listRules',
    ...{ method: 'get', path: '/rules', group: 'Judging', scope: 'read' },
    says: 'What every change is held against, with thresholds and sources.',
    query: z.strictObject(paging),
    answer: pageOf(rule),
    run: async (_, { query }) => ok(pieceOf(ruleSheet(), query)),
  }),
]
