import type { SeatLine } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { Field } from './form.tsx'
import { pathTo } from './frame.ts'
import { pathToMail } from './outboxParts.tsx'
import { SetDay, YesWithDay } from './roundBooking.tsx'
import type { Shown } from './roundParts.tsx'
import { pathToRound } from './rounds.tsx'

const W = ROUNDS_EN.round

type Props = Pick<Shown, 'view' | 'typed' | 'problems'> & { readonly seat: SeatLine }

export const pathToSeat = ({ roundId, id }: Pick<SeatLine, 'roundId' | 'id'>): string =>
  `${pathToRound(roundId)}/seats/${encodeURIComponent(id)}`

/** Whom a button is about, for who hears the page. */
export const aboutSeat = ({ name, machineTag }: Pick<SeatLine, 'name' | 'machineTag'>): string =>
  `${name ?? ''} ${machineTag ?? ''}`.trim()

/** One press about one customer. */
const Act = ({ seat, act, says, about }: { seat: SeatLine; act: string; says: string; about: string }) => (
  <form method="post" action={`${pathToSeat(seat)}/${act}`}>
    <button class="button quiet" type="submit">
      {says}
      <span class="unseen">: {about}</span>
    </button>
  </form>
)

const LeaveOut = ({
  seat,
  about,
  typed,
  problems,
}: Pick<Props, 'seat' | 'typed' | 'problems'> & { about: string }) => (
  <details class="fold" open={problems.some(({ field }) => field === `because.${seat.id}`)}>
    <summary>
      {W.leave}
      <span class="unseen">: {about}</span>
    </summary>
    <form method="post" action={`${pathToSeat(seat)}/leave-out`} class="form">
      <Field name={`because.${seat.id}`} label={W.leaveWhy} typed={typed} problems={problems} />
      <button class="button quiet" type="submit">
        {W.leave}
        <span class="unseen">: {about}</span>
      </button>
    </form>
  </details>
)

/** What can be done about a customer as they stand. */
export const Acts = ({ seat, view, typed, problems }: Props) => {
  const { row, isOpenDeal } = view
  const about = aboutSeat(seat)
  const booking = { ...{ seat, typed, problems, about }, path: pathToSeat(seat) }
  const { standing, mail } = seat
  const isRunning = row.state === 'going out' || row.state === 'paused' || row.state === 'stopped'
  const isOut =
    mail === undefined ? seat.trouble !== undefined : mail.state === 'stopped' || mail.state === 'failed'
  const act = (name: string, says: string) => <Act seat={seat} act={name} says={says} about={about} />
  if (row.state === 'draft')
    return standing === 'left out' ? (
      seat.canBePutBack && act('put-back', W.putBack)
    ) : (
      <LeaveOut {...{ seat, about, typed, problems }} />
    )
  return (
    <>
      {isRunning &&
        ['asked', 'said no', 'let go'].includes(standing) &&
        (isOpenDeal ? act('yes', W.saidYes) : <YesWithDay {...booking} />)}
      {isRunning && standing === 'asked' && act('no', W.saidNo)}
      {row.state === 'going out' && standing === 'asked' && isOut && act('anew', W.askAnew)}
      {(seat.job?.state === 'agreed' || seat.job?.state === 'booked') && <SetDay {...booking} />}
      {seat.job?.state === 'booked' && (
        <form method="post" action={`${pathTo('jobs', seat.job.id)}/outbox`}>
          <button class="button quiet" type="submit">
            {W.bookedMail}
            <span class="unseen">: {about}</span>
          </button>
        </form>
      )}
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
      ) : (
        seat.isToTell && act('tell', standing === 'not bought' ? W.tellNotBought : W.tellGone)
      )}
    </>
  )
}
