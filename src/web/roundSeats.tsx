import type { RoundView, SeatLine } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import type { Figures } from '../words/figures.ts'
import { leftWhy, mailWhy, seatOffer } from '../words/rounds.ts'
import { fill } from '../words/say.ts'
import { Field } from './form.tsx'
import { pathTo } from './frame.ts'
import { Tag } from './mark.tsx'
import { pathToMail } from './outboxParts.tsx'
import { pathToRound } from './rounds.tsx'

const W = ROUNDS_EN.round

export type Shown = { readonly view: RoundView; readonly figures: Figures }
type Props = Shown & { readonly seat: SeatLine }

export const pathToSeat = ({ roundId, id }: Pick<SeatLine, 'roundId' | 'id'>): string =>
  `${pathToRound(roundId)}/seats/${encodeURIComponent(id)}`

/** Where the mail is, and why it did not go or waits. */
export function mailWords({ mail, trouble, askedAt }: SeatLine, figures: Figures): string {
  const M = ROUNDS_EN.mails
  if (mail === undefined) return trouble === undefined ? M.none : fill(M.stopped, { why: mailWhy(trouble) })
  const why = mailWhy(mail.says)
  switch (mail.state) {
    case 'sent':
      return fill(M.sent, { at: figures.dateTime(mail.sentAt ?? mail.updatedAt) })
    case 'failed':
    case 'stopped':
      return fill(M[mail.state], { why })
    case 'approved':
      if (mail.pausedAt !== undefined) return M.paused
      return mail.dueAt !== undefined && askedAt !== undefined && mail.dueAt > mail.updatedAt
        ? fill(M.later, { at: figures.dateTime(mail.dueAt), why })
        : M.approved
    default:
      return M[mail.state]
  }
}

/** One press about one customer. */
const Act = ({ seat, act, says, about }: { seat: SeatLine; act: string; says: string; about: string }) => (
  <form method="post" action={`${pathToSeat(seat)}/${act}`}>
    <button class="button quiet" type="submit">
      {says}
      <span class="unseen">: {about}</span>
    </button>
  </form>
)

const LeaveOut = ({ seat, about }: { seat: SeatLine; about: string }) => (
  <details class="fold">
    <summary>
      {W.leave}
      <span class="unseen">: {about}</span>
    </summary>
    <form method="post" action={`${pathToSeat(seat)}/leave-out`} class="form">
      <Field name={`because.${seat.id}`} label={W.leaveWhy} typed={new Map()} problems={[]} />
      <button class="button quiet" type="submit">
        {W.leave}
        <span class="unseen">: {about}</span>
      </button>
    </form>
  </details>
)

/** What can be done about a customer as they stand. */
const Acts = ({ seat, view }: Props) => {
  const { row, isOpenDeal } = view
  const about = `${seat.name ?? ''} ${seat.machineTag ?? ''}`.trim()
  const { standing, mail } = seat
  const isRunning = row.state === 'going out' || row.state === 'paused' || row.state === 'stopped'
  const isOut =
    mail === undefined ? seat.trouble !== undefined : mail.state === 'stopped' || mail.state === 'failed'
  const act = (name: string, says: string) => <Act seat={seat} act={name} says={says} about={about} />
  if (row.state === 'draft')
    return standing === 'left out' ? act('put-back', W.putBack) : <LeaveOut seat={seat} about={about} />
  return (
    <>
      {isRunning && ['asked', 'said no', 'let go'].includes(standing) && act('yes', W.saidYes)}
      {isRunning && standing === 'asked' && act('no', W.saidNo)}
      {row.state === 'going out' && standing === 'asked' && isOut && act('anew', W.askAnew)}
      {standing === 'held' && act('let-go', W.letGo)}
      {standing === 'counted' && act('let-go', W.letGoDeal)}
      {!isOpenDeal && (standing === 'too late' || standing === 'to settle') && row.state !== 'called off' && (
        <>
          {act('give', W.give)}
          {act('let-go', W.letGoDeal)}
        </>
      )}
      {seat.toldMailId !== undefined ? (
        <a href={pathToMail(seat.toldMailId)}>{W.told}</a>
      ) : row.state === 'called off' && row.kind === 'deal' && seat.yesNumber !== undefined ? (
        act('tell', W.tellNotBought)
      ) : (
        !isOpenDeal && standing === 'too late' && act('tell', W.tellGone)
      )}
    </>
  )
}

const SeatRow = ({ seat, view, figures }: Props) => {
  const { row, shelf, parts } = view
  const about = `${seat.name ?? ''} ${seat.machineTag ?? ''}`.trim()
  const yes = {
    n: figures.number(seat.yesNumber ?? 0),
    at: seat.saidAt === undefined ? '' : figures.dateTime(seat.saidAt),
  }
  return (
    <tr id={`seat-${seat.id}`}>
      <td>
        <a href={pathTo('customers', seat.customerId)}>{seat.name ?? seat.customerId}</a>{' '}
        {seat.machineTag !== undefined && <Tag tag={seat.machineTag} />}
        <br />
        <small>{seatOffer(seat.optionId, shelf, parts)}</small>
      </td>
      <td class="right" data-label={W.gain}>
        {seat.pct === undefined ? '' : figures.gainPct(seat.pct)}
      </td>
      <td class="right" data-label={W.price}>
        {seat.dueMinor === undefined ? '' : figures.money(seat.dueMinor)}
      </td>
      <td data-label={W.standing}>
        <b>
          {row.state === 'draft' && seat.standing === 'asked'
            ? W.toBeAsked
            : ROUNDS_EN.standings[seat.standing]}
        </b>
        <br />
        <small>
          {seat.standing === 'left out'
            ? `${leftWhy(seat.leftBecause)} ${seat.leftNote ?? ''}`
            : row.state === 'draft'
              ? ''
              : mailWords(seat, figures)}
        </small>
        {seat.yesNumber !== undefined && (
          <small class="block">
            {fill(W.yesAt, yes)}
            {seat.saidBy !== undefined && `, ${fill(W.byHand, { by: seat.saidBy })}`}
          </small>
        )}
        {seat.standing === 'to settle' && seat.trouble !== undefined && (
          <small class="block wrong">{seat.trouble}</small>
        )}
        {seat.job !== undefined && (
          <small class="block">
            <a href={pathTo('jobs', seat.job.id)}>{fill(W.job, { id: seat.job.id })}</a>, {seat.job.state}
          </small>
        )}
        {seat.questions.map((question) => (
          <small class="block">
            <a href={pathTo('questions', question.id)}>“{question.words}”</a>
          </small>
        ))}
      </td>
      <td>
        <div class="seat-acts">
          {seat.mailId !== undefined ? (
            <a href={pathToMail(seat.mailId)}>
              {W.outbox}
              <span class="unseen">: {about}</span>
            </a>
          ) : (
            (seat.isDrafted || seat.answerId !== undefined) &&
            seat.standing !== 'left out' && (
              <a href={`${pathToSeat(seat)}/mail`}>
                {W.preview}
                <span class="unseen">: {about}</span>
              </a>
            )
          )}
          <Acts seat={seat} view={view} figures={figures} />
        </div>
      </td>
    </tr>
  )
}

/** Customers of a round, each with what is known and what can be done. */
export const Seats = ({ seats, view, figures }: Shown & { readonly seats: readonly SeatLine[] }) =>
  seats.length === 0 ? (
    <p class="nothing">{W.nobodyHere}</p>
  ) : (
    <table class="list">
      <thead>
        <tr>
          <th scope="col">{W.who}</th>
          <th scope="col" class="right">
            {W.gain}
          </th>
          <th scope="col" class="right">
            {W.price}
          </th>
          <th scope="col">{W.standing}</th>
          <th scope="col">
            <span class="unseen">{W.acts}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {seats.map((seat) => (
          <SeatRow seat={seat} view={view} figures={figures} />
        ))}
      </tbody>
    </table>
  )
