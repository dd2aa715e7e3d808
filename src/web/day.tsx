import type { Child } from 'hono/jsx'
import { type Day, WAITING_MAILS, WARRANTIES_NAMED, type WaitingMail } from '../uses/day.ts'
import type { JobLine } from '../uses/jobs/jobViews.ts'
import { DAY_EN as W } from '../words/en/day.ts'
import type { Figures } from '../words/figures.ts'
import { counted } from '../words/offers.ts'
import { partWords } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { pathTo } from './frame.ts'
import { Tag } from './mark.tsx'
import { pathToRound } from './rounds.tsx'

/** Where such mails are listed. */
const MAILS_AT: Readonly<Record<WaitingMail, string>> = {
  drafted: '/outbox?group=drafted',
  held: '/outbox?group=held',
  failed: '/outbox?group=failed',
}

const Job = ({ job, says }: { job: JobLine; says: string }) => (
  <li class="line">
    <Tag tag={job.machineTag} />
    <a href={pathTo('jobs', job.id)}>{says}</a>
    {job.customerName !== undefined && <span class="soft">{job.customerName}</span>}
  </li>
)

const dueWords = ({ state, what, bookedFor }: JobLine, now: string, figures: Figures): string => {
  if (state !== 'booked' || bookedFor === undefined) return fill(W.again, { what })
  const at = figures.dateTime(bookedFor)
  return fill(bookedFor < now ? W.late : W.due, { what, at })
}

/** What is due today beside questions: each line one click from where it is done. */
export const DayBlock = ({ day, now, figures }: { day: Day; now: string; figures: Figures }) => {
  const rows = rowsOf(day, now, figures)
  return (
    <section class="card" id="today">
      <h2>{W.head}</h2>
      {rows.length === 0 ? <p class="nothing">{W.nothing}</p> : <ul class="ruled">{rows}</ul>}
    </section>
  )
}

/** The most urgent first: who waits at the bench, then mails, then what can wait a day. */
function rowsOf(day: Day, now: string, figures: Figures): readonly Child[] {
  const { due, bench, untold, toSettle, dealsOver, mails, odd = 0, stale, wanted, warranties, parts } = day
  const further = warranties.length - WARRANTIES_NAMED
  return [
    ...due.map((job) => <Job job={job} says={dueWords(job, now, figures)} />),
    ...bench.map((job) => <Job job={job} says={fill(W.bench, { what: job.what })} />),
    ...untold.map((job) => <Job job={job} says={fill(W.untold, { what: job.what })} />),
    ...toSettle.map(({ roundId, yeses }) => (
      <li>
        <a href={pathToRound(roundId)}>{counted(W.toSettle, yeses, { round: roundId })}</a>
      </li>
    )),
    ...dealsOver.map(({ roundId, yeses }) => (
      <li>
        <a href={pathToRound(roundId)}>{counted(W.dealOver, yeses, { round: roundId })}</a>
      </li>
    )),
    ...WAITING_MAILS.filter((state) => mails[state] > 0).map((state) => (
      <li>
        <a href={MAILS_AT[state]}>{counted(W.mails[state], mails[state])}</a>
      </li>
    )),
    ...(odd > 0
      ? [
          <li>
            <a href="/runs?fits=again">{counted(W.odd, odd)}</a>
          </li>,
        ]
      : []),
    ...(stale > 0
      ? [
          <li>
            <a href="/shelf">{counted(W.stale, stale)}</a>
          </li>,
        ]
      : []),
    ...(wanted?.items ?? []).map(({ partId, customers }) => (
      <li>
        <a href={`/offers/${encodeURIComponent(wanted?.id ?? '')}`}>
          {fill(W.wanted, { n: figures.number(customers), part: partWords(parts, partId) })}
        </a>
      </li>
    )),
    ...warranties.slice(0, WARRANTIES_NAMED).map(({ machineTag, partId, until }) => (
      <li class="line">
        <Tag tag={machineTag} />
        <a href={pathTo('machines', machineTag)}>
          {fill(W.warranty, { part: partWords(parts, partId), date: figures.date(until) })}
        </a>
      </li>
    )),
    ...(further > 0 ? [<li class="soft">{counted(W.more, further)}</li>] : []),
  ]
}
