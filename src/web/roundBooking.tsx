import type { Context, Hono } from 'hono'
import { date, timeOfDay } from '../input/cells.ts'
import { dayOf, instantOf } from '../input/dates.ts'
import type { Problem, Result } from '../problem.ts'
import type { SeatLine } from '../uses/rounds/roundViews.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { nameOf, who } from './access/who.ts'
import { Field, type Typed, typedOf } from './form.tsx'
import { param, readingFor, type Web } from './frame.ts'
import { USUAL_TIME } from './jobForm.ts'
import { readForm } from './readForm.ts'
import type { Shown } from './roundParts.tsx'
import { fieldReader } from './typed.ts'

const W = ROUNDS_EN.round

type Props = Pick<Shown, 'typed' | 'problems'> & {
  readonly seat: SeatLine
  readonly path: string
  readonly about: string
}

const dayField = (id: string) => `bookedDay.${id}`
const timeField = (id: string) => `bookedTime.${id}`

/** A fold that is open while something in it is wrong. */
const Fold = (props: Props & { act: string; head: string; does: string; hint?: string; label: string }) => {
  const { seat, typed, problems, about } = props
  const own = [dayField(seat.id), timeField(seat.id)]
  return (
    <details class="fold" open={problems.some(({ field }) => own.includes(field))}>
      <summary>
        {props.head}
        <span class="unseen">: {about}</span>
      </summary>
      <form method="post" action={`${props.path}/${props.act}`} class="form">
        {props.hint !== undefined && <p class="hint">{props.hint}</p>}
        <div class="row">
          <Field
            name={dayField(seat.id)}
            label={props.label}
            type="date"
            typed={typed}
            problems={problems}
            narrow
          />
          <Field
            name={timeField(seat.id)}
            label={W.yesTime}
            hint={W.timeHint}
            typed={typed}
            problems={problems}
            narrow
          />
        </div>
        <button class="button" type="submit">
          {props.does}
          <span class="unseen">: {about}</span>
        </button>
      </form>
    </details>
  )
}

/** A yes that came by mail, by phone or over the counter, with the day of the work where it is known. */
export const YesWithDay = (props: Props) => (
  <Fold {...props} act="yes" head={W.saidYes} does={W.yesNow} hint={W.yesMeans} label={W.yesDay} />
)

/** The day of a job that a yes became. */
export const SetDay = (props: Props) => (
  <Fold
    {...props}
    act="book"
    head={props.seat.job?.state === 'booked' ? W.otherDay : W.setDay}
    does={W.book}
    label={W.workDay}
  />
)

/** Both forms. `show` draws the page again with what is wrong; `after` leads on. */
export function bookingRoutes(
  app: Hono,
  { uses }: Web,
  show: (c: Context, typed: Typed, problems: readonly Problem[]) => Promise<Response>,
  after: (c: Context, done: Result<unknown>, typed?: Typed) => Promise<Response>,
): void {
  const read = async (c: Context, needed: boolean) => {
    const seat = param(c, 'seat')
    const typed = typedOf(await readForm(c))
    const shop = await uses.shop()
    const reader = fieldReader(typed, readingFor(shop))
    const noon = needed ? reader.need(dayField(seat), date, W.needDay) : reader.read(dayField(seat), date)
    const time = reader.read(timeField(seat), timeOfDay)
    if (noon === undefined && time !== undefined && reader.problems.length === 0)
      reader.problems.push({ code: 'missing', field: dayField(seat), next: W.needDay })
    const day = noon && instantOf(dayOf(noon, shop.timeZone), time ?? USUAL_TIME, shop.timeZone)
    return { seat, typed, day, problems: reader.problems }
  }
  /** What the use says of the day stands beside this customer's field. */
  const here = (done: Result<unknown>, seat: string): Result<unknown> =>
    done.ok
      ? done
      : {
          ok: false,
          problems: done.problems.map((one) =>
            one.field === 'bookedDay' ? { ...one, field: dayField(seat) } : one,
          ),
        }

  app.post('/rounds/:id/seats/:seat/yes', async (c) => {
    const { seat, typed, day, problems } = await read(c, false)
    if (problems.length > 0) return show(c, typed, problems)
    return after(c, here(await uses.sayFor(param(c, 'id'), seat, 'yes', day, nameOf(who(c))), seat), typed)
  })

  app.post('/rounds/:id/seats/:seat/book', async (c) => {
    const { seat, typed, day, problems } = await read(c, true)
    if (day === undefined || problems.length > 0) return show(c, typed, problems)
    return after(c, here(await uses.bookFor(param(c, 'id'), seat, day, nameOf(who(c))), seat), typed)
  })
}
