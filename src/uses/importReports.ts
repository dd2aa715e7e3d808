import type { ShopData } from '../input/shopFolder.ts'
import type { Problem } from '../problem.ts'
import type { OwnerReportRow } from '../store/ownerReports.ts'
import { type Plan, planOf } from './importPlan.ts'
import { lateProblem, lowProblems } from './runProblems.ts'

const keyOf = ({ machineTag, titleId, settingId, at }: OwnerReportRow): string =>
  JSON.stringify([machineTag, titleId, settingId, at])

/** What an import does to what owners said. A report keeps the job and the owner it came with. */
export const planReports = (
  rows: ShopData['ownerReports'],
  stored: readonly OwnerReportRow[],
): Plan<OwnerReportRow> => planOf(rows, stored, keyOf, (draft, before) => ({ ...before, ...draft }), keyOf)

/** `at` is now; without it no day is too late. */
export const reportProblems = (
  rows: ShopData['ownerReports'],
  after: Plan<OwnerReportRow>['after'],
  timeZone: string,
  at: string | undefined,
): Problem[] =>
  rows.flatMap(({ line, value }): Problem[] => {
    const where = { file: 'owner_reports.csv', line }
    const late = at === undefined ? undefined : lateProblem(value.at, at, timeZone)
    return [
      ...lowProblems(after.get(keyOf(value)) ?? value).map((problem) => ({
        ...{ ...problem, field: 'low_1pct_fps', ...where },
      })),
      ...(late === undefined ? [] : [{ ...late, field: 'reported_on', ...where }]),
    ]
  })
