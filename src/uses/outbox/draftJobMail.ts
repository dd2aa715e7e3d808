import type { CautionId } from '../../core/fit/finding.ts'
import type { Grade } from '../../core/gain/gain.ts'
import { isOver } from '../../core/job/states.ts'
import { MAILS } from '../../mail/mails.ts'
import type { Drawn } from '../../mail/render.ts'
import { failed, type Result } from '../../problem.ts'
import { loadCustomer } from '../../store/customers.ts'
import type { Store } from '../../store/open.ts'
import { changeDraft, mailsAbout } from '../../store/outbox.ts'
import { letterOf } from '../../words/answer.ts'
import { figuresOf } from '../../words/figures.ts'
import { namesFrom, sayJobWhat } from '../../words/job.ts'
import { settingText } from '../../words/settings.ts'
import { type JobView, viewJob } from '../jobs/jobViews.ts'
import { shopOrNeutral } from '../shop.ts'
import { draftMail, type MailId } from './draftMails.ts'

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
  const drawn = await (kind === 'done' ? drawDone : drawBooked)(view.value, shop, owner)
  return store.write(async (tx) => {
    const open = (await mailsAbout(tx, kind, { jobId })).find(({ state }) => state === 'drafted')
    if (open === undefined)
      return draftMail(tx, { kind, customer: owner, machineTag: job.machineTag, jobId, ...drawn }, at, by)
    await changeDraft(tx, open.id, drawn, { event: 'changed', at, by })
    return { ok: true, value: { mailId: open.id } }
  })
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

function drawBooked(view: JobView, shop: ShopOf, owner: Owner): Promise<Drawn> {
  const { figures, names, facts } = sharedOf(view, shop, owner)
  const { answer, option, job } = view
  const promised = new Set(job.promised.map(({ titleId }) => titleId))
  const grades: Readonly<Record<string, Grade>> = Object.fromEntries(
    option.gains.map(({ titleId, grade }) => [titleId, grade]),
  )
  const cautions: readonly CautionId[] = option.findings.flatMap((finding) => finding.cautions)
  // The answer's own customer may have read another language on the day it was given.
  const asRead = { ...answer, inputs: { ...answer.inputs, customer: owner } }
  const { board } = letterOf(asRead, answer.asked === undefined ? { pickId: option.id } : {})
  const said = MAILS.booked.says(
    {
      ...facts,
      ...{ grades, board, cautions },
      notPromised: answer.inputs.question.wanted.flatMap(({ titleId }) =>
        promised.has(titleId) ? [] : [names.titleName(titleId)],
      ),
      takesOldParts: option.price.lines.some(({ what }) => what === 'trade-in'),
      hasTime: false,
    },
    figures,
  )
  return MAILS.booked.draw(said)
}

function drawDone(view: JobView, shop: ShopOf, owner: Owner): Promise<Drawn> {
  const { figures, names, facts } = sharedOf(view, shop, owner)
  const { kept, reports, outs, warranties } = view
  const said = MAILS.done.says(
    { ...facts, ...{ kept, reports, outs, warranties }, partName: names.partName },
    figures,
  )
  return MAILS.done.draw(said)
}
