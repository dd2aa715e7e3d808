import type { CautionId } from '../../core/fit/finding.ts'
import type { Grade } from '../../core/gain/gain.ts'
import { isOver } from '../../core/job/states.ts'
import { dueOfLines } from '../../core/ranking/price.ts'
import type { LimitsSheet } from '../../core/sheet/sheet.ts'
import { MAILS } from '../../mail/mails.ts'
import { failed, type Result } from '../../problem.ts'
import { loadCustomer } from '../../store/customers.ts'
import type { Store } from '../../store/open.ts'
import { oldPartsSaid, tradedSaid } from '../../words/answer/oldParts.ts'
import { letterOf } from '../../words/answer.ts'
import { figuresOf } from '../../words/figures.ts'
import { namesFrom, sayJobWhat } from '../../words/job.ts'
import type { Notice } from '../../words/mails/notice.ts'
import { settingText } from '../../words/settings.ts'
import { type JobView, viewJob } from '../jobs/jobViews.ts'
import { viewLimitsSheet } from '../limitsSheet.ts'
import { shopOrNeutral } from '../shop.ts'
import type { MailId } from './draftMails.ts'
import { draftNotice } from './draftNotice.ts'

/** The sheet's limits hang on no fit, and its gains are not told here. */
const NO_WAIT_MS = 0

type Owner = NonNullable<Awaited<ReturnType<typeof loadCustomer>>>
type ShopOf = Awaited<ReturnType<typeof shopOrNeutral>>

/**
 * The mail of a job among the drafts: what was booked and is promised before the work, what became of it after. Where one
 * is there already and nobody approved it yet, that one, drawn anew.
 */
export async function draftJobMail(
  store: Store,
  jobId: string,
  at: string,
  by?: string,
): Promise<Result<MailId>> {
  const view = await viewJob(store, jobId)
  if (!view.ok) return view
  const { job } = view.value
  const owner = job.customerId === undefined ? undefined : await loadCustomer(store.db, job.customerId)
  if (owner === undefined) {
    const next = 'Nobody is written down whose job this is. Name the owner on the machine first.'
    return failed({ code: 'missing', field: 'customer', next })
  }
  const kind = job.fittedAt !== undefined ? 'done' : 'booked'
  if (kind === 'booked' && isOver(job.state)) {
    const next = 'This job was called off, so there is nothing to write.'
    return failed({ code: 'conflict', field: 'job', got: jobId, next })
  }
  const shop = await shopOrNeutral(store.db)
  const notice =
    kind === 'done'
      ? doneNotice(view.value, shop, owner, await sheetAfter(store, view.value, at))
      : bookedNotice(view.value, shop, owner)
  return draftNotice(
    store,
    { kind, customer: owner, machineTag: job.machineTag, jobId, notice },
    { jobId },
    { at, by },
  )
}

/** What the machine can take and what it cannot, as it is now; a job that changed no part leaves its old sheet true. */
async function sheetAfter(
  store: Store,
  { steps, job }: JobView,
  at: string,
): Promise<LimitsSheet | undefined> {
  if (!steps.some(({ what }) => what === 'fit' || what === 'take out')) return undefined
  const shown = await viewLimitsSheet(store, job.machineTag, at, NO_WAIT_MS)
  return shown.ok ? shown.value.sheet : undefined
}

/** Who writes to whom, and what things are called in their language. */
function sharedOf({ steps, parts, titles, settings, answer, job }: JobView, shop: ShopOf, owner: Owner) {
  const figures = figuresOf(shop, owner)
  const names = namesFrom(parts, titles, settings, (setting) => settingText(setting, figures.language))
  return {
    figures,
    names,
    facts: {
      ...{ shop, customerName: owner.name, job },
      targetFps: answer.inputs.question.targetFps,
      what: sayJobWhat(steps, names.partName, figures.language),
      titleName: names.titleName,
      settingName: names.settingName,
    },
  }
}

function bookedNotice(view: JobView, shop: ShopOf, owner: Owner): Notice {
  const { figures, names, facts } = sharedOf(view, shop, owner)
  const { answer, option, job } = view
  const promised = new Set(job.promised.map(({ titleId }) => titleId))
  const grades: Readonly<Record<string, Grade>> = Object.fromEntries(
    option.gains.map(({ titleId, grade }) => [titleId, grade]),
  )
  const credits = option.price.lines.filter(({ what }) => what === 'trade-in')
  const cautions: readonly CautionId[] = option.findings.flatMap((finding) => finding.cautions)
  // The answer's own customer may have read another language on the day it was given.
  const asRead = { ...answer, inputs: { ...answer.inputs, customer: owner } }
  const { board } = letterOf(asRead, answer.asked === undefined ? { pickId: option.id } : {})
  return MAILS.booked.says(
    {
      ...facts,
      ...{ grades, board, cautions },
      notPromised: answer.inputs.question.wanted.flatMap(({ titleId }) =>
        promised.has(titleId) ? [] : [names.titleName(titleId)],
      ),
      takesOldParts: credits.length > 0,
      takesKinds: tradedSaid(asRead, option),
      oldParts: oldPartsSaid(asRead, option),
      minutes: option.price.lines.reduce((sum, { minutes = 0 }) => sum + minutes, 0),
      failedMinor: job.agreedMinor - dueOfLines(option.price, credits),
    },
    figures,
  )
}

function doneNotice(view: JobView, shop: ShopOf, owner: Owner, sheet: LimitsSheet | undefined): Notice {
  const { figures, names, facts } = sharedOf(view, shop, owner)
  const { kept, reports, outs, warranties, job } = view
  const miss = { checked: job.missChecked, choices: (job.missChoices ?? '').split('\n').filter(isSaid) }
  return MAILS.done.says(
    { ...facts, ...{ kept, reports, outs, warranties, miss, sheet }, partName: names.partName },
    figures,
  )
}

const isSaid = (line: string): boolean => line.trim() !== ''
