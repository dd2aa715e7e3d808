import type { AnswerInputs } from '../../src/core/answer.ts'
import { modelFor } from '../../src/core/computeAnswer.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import { limitsSheetOf } from '../../src/core/sheet/limitsSheet.ts'
import { failed, ok } from '../../src/problem.ts'
import { NO_LINK } from '../../src/uses/ownerLinks.ts'
import type { SheetUses } from '../../src/web/sheetUses.ts'
import type { PageState } from './states.ts'

export const LABEL = '7K2M9XW4TQ3P5R8V'

/** The canned owner's link. */
export const TOKEN = 'c4NnedT0ken_of-43-signs-for-the-tests-0123-4'

/** The canned machine's sheet from the real core; drawings are a few letters, nothing is kept. */
export function cannedSheetUses(
  inputs: AnswerInputs,
  calls: [name: string, ...given: unknown[]][],
  now: string,
): SheetUses {
  const { machine, shop, runs, titles, settings, parts } = inputs
  const { tag } = machine
  const notFound = failed({ code: 'not found', field: 'machine', next: 'There is no machine with this tag.' })
  const shown = () => ({
    shop,
    machine: { build: machine.build, limits: limitsOf(machine.build, machine.claims) },
    sheet: limitsSheetOf({
      ...{ titles, settings, parts, policy: shop.policy, model: modelFor(inputs) },
      machine: { ...machine, at: now },
      soldAt: '2025-09-02T17:00:00.000Z',
      warranties: inputs.warranties ?? [],
      ownRuns: runs.filter((run) => run.machineTag === tag),
    }),
  })
  return {
    limitsSheet: async (asked) => (asked === tag ? ok(shown()) : notFound),
    sheetBehindLabel: async (code) => (code === LABEL ? ok(shown()) : notFound),
    sheetBehindLink: async (token) =>
      token === TOKEN ? ok({ ...shown(), language: 'en' as const }) : failed(NO_LINK),
    handedSheets: async (asked) => (asked === tag ? [{ id: '1', at: now }] : []),
    handedSheet: async (asked, id) =>
      asked === tag && id === '1'
        ? ok({ ...shown(), machine: undefined, subject: 'Your machine', message: 'Hello,\n\nit is ready.' })
        : notFound,
    sheetPdf: async (_, paper, link) => {
      calls.push(['sheetPdf', paper, link])
      return new TextEncoder().encode('%PDF-')
    },
    caseLabel: async (asked) => (asked === tag ? ok({ tag, code: LABEL }) : notFound),
    anotherLabel: async (asked) => {
      calls.push(['anotherLabel', asked])
      return asked === tag ? ok({ tag, code: LABEL }) : notFound
    },
    labelSizes: ['54x25', '62x29'],
    drawLabel: async (asked, link, size, as) => {
      calls.push(['drawLabel', asked, link, size, as])
      return size === '62x29'
        ? '<svg xmlns="http://www.w3.org/2000/svg" width="62mm" height="29mm"></svg>'
        : undefined
    },
  }
}

/** The sheet on the shop's page and behind a label, the label, and what leads nowhere. */
export const SHEET_STATES: readonly PageState[] = [
  { name: 'limits-sheet', path: '/machines/T-0007/sheet' },
  { name: 'limits-sheet-unknown', path: '/machines/T-9/sheet', status: 404 },
  { name: 'case-label', path: '/machines/T-0007/label' },
  { name: 'case-label-unknown', path: '/machines/T-9/label', status: 404 },
  { name: 'case-label-size', path: '/machines/T-0007/label.svg?size=1x1', status: 422 },
  { name: 'sheet-handed-out', path: '/machines/T-0007/sheet/handed/1' },
  { name: 'owner-limits-sheet', path: `/o/${TOKEN}/sheet`, as: 'stranger' },
  { name: 'label-leads-to', path: `/l/${LABEL}`, as: 'stranger' },
  { name: 'label-leads-nowhere', path: '/l/0000000000000000', as: 'stranger', status: 404 },
]
