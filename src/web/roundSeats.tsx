import type { SeatLine } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import type { Figures } from '../words/figures.ts'
import { leftWhy, mailWhy, seatOffer } from '../words/rounds.ts'
import { fill } from '../words/say.ts'
import { pathTo } from './frame.ts'
import { Tag } from './mark.tsx'
import { pathToMail } from './outboxParts.tsx'
import { counted, type Shown } from './roundParts.tsx'
import { Acts, aboutSeat, pathToSeat } from './roundSeatActs.tsx'

const W = ROUNDS_EN.round

type Props = Shown & { readonly seat: SeatLine }

/** Where the mail is, and why it did not go or waits. */
function mailWords(
  { mail, trouble, askedAt, standing }: SeatLine,
  writes: boolean,
  figures: Figures,
): string {
  const M = ROUNDS_EN.mails
  if (mail === undefined && trouble === undefined) return writes && standing === 'asked' ? M.none : M.never
  if (mail === undefined) return fill(M.stopped, { why: mailWhy(trouble) })
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

const SeatRow = (props: Props) => {
  const { seat, view, figures } = props
  const { row, shelf, parts } = view
  const about = aboutSeat(seat)
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
          {seat.standing !== 'asked' || row.begunAt !== undefined
            ? ROUNDS_EN.standings[seat.standing]
            : row.state === 'draft'
              ? W.toBeAsked
              : W.notAsked}
        </b>
        <br />
        <small>
          {seat.standing === 'left out'
            ? leftWords(seat)
            : row.state === 'draft'
              ? ''
              : mailWords(seat, row.state === 'going out' || row.state === 'paused', figures)}
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
        <Beside seat={seat} figures={figures} />
        {seat.job !== undefined && (
          <small class="block">
            <a href={pathTo('jobs', seat.job.id)}>{fill(W.job, { id: seat.job.id })}</a>:{' '}
            {fill(W.jobs[seat.job.state], {
              when: seat.job.bookedFor === undefined ? '' : figures.dateTime(seat.job.bookedFor),
            })}
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
          <Acts {...props} />
        </div>
      </td>
    </tr>
  )
}

/** Why somebody is left out; a price above what they named is told with both figures beside it. */
const leftWords = ({ leftBecause, leftNote = '', ceilingMinor }: SeatLine): string =>
  leftBecause === 'above the ceiling' && ceilingMinor !== undefined
    ? ''
    : `${leftWhy(leftBecause)} ${leftNote}`

/** What a person should know before this customer's mail goes out: a price above what they named, another machine of theirs. */
const Beside = ({ seat, figures }: { seat: SeatLine; figures: Figures }) => {
  const { ceilingMinor, others, standing, leftBecause } = seat
  const isIn = standing !== 'left out'
  const tags = others.map(({ machineTag, pct }) =>
    pct === undefined
      ? machineTag
      : fill(ROUNDS_EN.otherMachine, { tag: machineTag, gain: figures.gainPct(pct) }),
  )
  return (
    <>
      {ceilingMinor !== undefined && (
        <small class="block">
          {fill(ROUNDS_EN.ceiling, {
            ...{ ceiling: figures.money(ceilingMinor), net: figures.money(seat.dueMinor ?? 0) },
          })}{' '}
          {isIn && ROUNDS_EN.takenIn}
        </small>
      )}
      {isIn && leftBecause === 'quiet period' && (
        <small class="block">
          {ROUNDS_EN.heardLately} {ROUNDS_EN.takenIn}
        </small>
      )}
      {tags.length > 0 && (
        <small class="block">
          {counted(ROUNDS_EN.others, tags.length, figures, { tags: tags.join(', ') })}
        </small>
      )}
    </>
  )
}

/** Customers of a round, each with what is known and what can be done. */
export const Seats = ({ seats, ...shown }: Shown & { readonly seats: readonly SeatLine[] }) =>
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
          <SeatRow {...shown} seat={seat} />
        ))}
      </tbody>
    </table>
  )
