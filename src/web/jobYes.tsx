import type { Context, Hono } from 'hono'
import { partsOut } from '../core/build.ts'
import { agreedPrice, promiseOf } from '../core/job/agreed.ts'
import { FITTERS, type Fitter } from '../core/job/job.ts'
import type { Option } from '../core/ranking/option.ts'
import { line, oneOf } from '../input/cells.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import { isBeingWorkedOut } from '../uses/answerQuestion.ts'
import type { Joins, ToAgree } from '../uses/jobs/toAgree.ts'
import { JOB_EN } from '../words/en/job.ts'
import type { Figures } from '../words/figures.ts'
import { sayFitter, sayNotPromised, sayPrice, sayPromised } from '../words/job.ts'
import { optionWords, partWords, priceWords } from '../words/options.ts'
import { capital, fill } from '../words/say.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { BookFields } from './jobActs.tsx'
import { bookingOf, jobLabel } from './jobForm.ts'
import { page } from './layout.tsx'
import { Tag, VerdictMark } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { settingName, titleName } from './settingText.ts'
import { fieldReader } from './typed.ts'
import { stopped } from './waiting.tsx'
import { touchedWords } from './yesLink.tsx'

const W = JOB_EN.yes

type YesProps = {
  found: ToAgree
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const Promises = ({ found: { answer, chosen }, figures }: YesProps) => {
  const promised = promiseOf(chosen, answer)
  const { titles, settings, question } = answer.inputs
  const { wanted, targetFps } = question
  if (chosen.standsOn === 'look first') return <p>{W.lookFirst}</p>
  const others = chosen.option.gains.filter(
    (gain, i) => !promised.some((p) => p.titleId === gain.titleId && p.settingId === wanted[i]?.settingId),
  )
  return (
    <>
      <p>{promised.length === 0 ? W.none : W.promised}</p>
      {wanted.length > 0 && (
        <ul>
          {promised.map((p) => (
            <li>
              {sayPromised(p, titleName(titles, p.titleId), figures, targetFps)}{' '}
              <small class="block">{settingName(settings, p.settingId)}</small>
            </li>
          ))}
          {others.map((gain) => (
            <li>{sayNotPromised(gain, titleName(titles, gain.titleId))}</li>
          ))}
        </ul>
      )}
    </>
  )
}

const Shelf = ({ found: { answer, chosen } }: YesProps) => {
  const { option } = chosen
  const items = option.price.lines.flatMap(({ what, shelfItemId }) =>
    what === 'part' && shelfItemId !== undefined ? [shelfItemId] : [],
  )
  const named = items.map((id) => {
    const item = answer.inputs.shelf.find((i) => i.id === id)
    return item === undefined ? id : `${partWords(answer.inputs.parts, item.partId)} (${id})`
  })
  const out = partsOut(answer.inputs.machine.build, option.change)
  return (
    <>
      <p>
        {named.length === 0
          ? 'Nothing is put aside: this needs nothing from the shelf.'
          : `Put aside at once: ${named.join(', ')}.`}
      </p>
      {out.length > 0 && (
        <p>Comes out: {out.map(({ id }) => partWords(answer.inputs.parts, id)).join(', ')}.</p>
      )}
    </>
  )
}

/** The open visit that a yes joins: when it is, and what both come to. */
const JoinsNote = ({ joins, figures }: { joins: Joins; figures: Figures }) => {
  const { job, what, sumMinor } = joins
  const date = job.bookedFor === undefined ? '' : figures.dateTime(job.bookedFor)
  const when =
    job.state === 'booked' || job.state === 'on the bench' ? fill(W.when[job.state], { date }) : W.when.agreed
  const [before, after = ''] = fill(W.joins, { job: '\n', what, when }).split('\n')
  return (
    <div class="kept" role="note">
      <p>
        <b>
          {before}
          <a href={pathTo('jobs', job.id)}>{job.id}</a>
          {after}
        </b>
      </p>
      <p>{fill(W.sum, { before: sayPrice(job.agreedMinor, figures), sum: sayPrice(sumMinor, figures) })}</p>
    </div>
  )
}

/** What is due by who does the work; a work of the shop that has no price is named. */
const priceBy = (by: Fitter, option: Option, figures: Figures): string => {
  const minor = agreedPrice(option.price, by)
  return by === 'shop' && minor >= 0 ? priceWords(option, figures) : sayPrice(minor, figures)
}

/** Who does the work; in a visit that is open already, that is agreed. */
const WhoFits = ({ found: { chosen, joins }, figures, typed, problems }: YesProps) => {
  const { option } = chosen
  if (joins !== undefined)
    return (
      <p>
        <input type="hidden" name="fittedBy" value={joins.job.fittedBy} />
        {fill(W.by, { by: capital(sayFitter(joins.job.fittedBy), 'en') })}
      </p>
    )
  return (
    <Select
      name="fittedBy"
      label="Who fits it"
      choices={FITTERS.map((by) => [by, `${sayFitter(by)}, ${priceBy(by, option, figures)}`])}
      typed={typed}
      problems={problems}
    />
  )
}

const When = ({ found: { joins }, figures, typed, problems }: YesProps) => {
  const { state, bookedFor, depositMinor = 0 } = joins?.job ?? {}
  const isHere = state === 'on the bench'
  const stays = state === 'booked' && bookedFor !== undefined ? figures.dateTime(bookedFor) : undefined
  const fields = (
    <BookFields
      {...{ typed, problems, isHere }}
      depositHint={
        depositMinor > 0 ? fill(W.depositMore, { deposit: figures.money(depositMinor) }) : 'Empty: none.'
      }
    />
  )
  if (isHere) return fields
  return (
    <fieldset>
      <legend>{stays === undefined ? W.date : W.otherDate}</legend>
      {stays !== undefined && <p class="hint">{fill(W.keepsDate, { date: stays })}</p>}
      {fields}
    </fieldset>
  )
}

const YesForm = (props: YesProps) => {
  const { found, figures, typed, problems } = props
  const { answer, answerId, chosen, seen, joins } = found
  const { option } = chosen
  const { question, customer, shop } = answer.inputs
  const touched = touchedWords(answer, option, figures)
  const validUntil = figures.dateAfter(answer.at, shop.policy.priceValidDays)
  return (
    <article class="card form">
      <p class="line">
        <Tag tag={question.machineTag} />
        <span class="soft">{customer?.name ?? 'owner not known'}</span>
      </p>
      <h1>They said yes to: {optionWords(option, answer.inputs.parts)}</h1>
      <ProblemSummary problems={problems} labels={jobLabel} />
      <p>
        <VerdictMark verdict={option.verdict} />
      </p>
      {joins !== undefined && <JoinsNote joins={joins} figures={figures} />}
      <Promises {...props} />
      <Shelf {...props} />
      {touched.map((text) => (
        <p>{text}</p>
      ))}
      {answerId !== undefined && (
        <p class="soft">
          Price and promise are those of the answer of {figures.date(answer.at)}; its price is good until{' '}
          {validUntil}.
        </p>
      )}
      <form method="post" action={`${pathTo('questions', question.id)}/yes`}>
        <OnceKey />
        <input type="hidden" name="option" value={option.id} />
        <input type="hidden" name="seen" value={seen} />
        {answerId !== undefined && <input type="hidden" name="answer" value={answerId} />}
        <WhoFits {...props} />
        <When {...props} />
        <Field name="note" label="Note" typed={typed} problems={problems} />
        <p class="does">
          <button class="button" type="submit">
            Agree it
          </button>
          <span class="soft">
            The answer is kept with its promise and price, the parts are put aside, and the checklist is made.
            It can be called off at any time before the parts are in.
          </span>
        </p>
      </form>
      <p>
        <a href={pathTo('questions', question.id)}>Back to the question</a>
      </p>
    </article>
  )
}

export function jobYesRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = (c: Context, found: ToAgree, typed: Typed, problems: readonly Problem[]) => {
    const { shop, question } = found.answer.inputs
    const first = problems[0]
    return page(
      c,
      { title: `${question.machineTag}: yes`, place: 'Questions', demo: options.demo, shopName: shop.name },
      <YesForm found={found} figures={figuresOf(shop)} typed={typed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/questions/:id/yes', async (c) => {
    const answerId = c.req.query('answer')
    const found = await uses.toAgree(param(c, 'id'), c.req.query('option') ?? '', { answerId })
    if (!found.ok) return stopped(c, web, found.problems)
    const { closed } = found.value
    return closed.length > 0 ? problemPage(c, web, closed, 'Questions') : show(c, found.value, new Map(), [])
  })

  app.post('/questions/:id/yes', async (c) => {
    const typed = typedOf(await readForm(c))
    const questionId = param(c, 'id')
    const which = { answerId: textOf(typed, 'answer'), seen: textOf(typed, 'seen') }
    const found = await uses.toAgree(questionId, textOf(typed, 'option') ?? '', which)
    if (!found.ok) return stopped(c, web, found.problems)
    const { answer, chosen } = found.value
    const reader = fieldReader(typed, readingFor(answer.inputs.shop))
    const fittedBy = reader.need('fittedBy', oneOf(FITTERS), 'Say who fits it.')
    const booking = bookingOf(reader, answer.inputs.shop.timeZone, false)
    const note = reader.read('note', line())
    if (fittedBy === undefined || reader.problems.length > 0)
      return show(c, found.value, typed, reader.problems)
    const agreed = await uses.agreeJob(questionId, chosen.option.id, { fittedBy, ...which, ...booking, note })
    if (!agreed.ok && isBeingWorkedOut(agreed.problems)) return stopped(c, web, agreed.problems)
    if (!agreed.ok) return show(c, found.value, typed, agreed.problems)
    return c.redirect(pathTo('jobs', agreed.value.jobId), 303)
  })
}
