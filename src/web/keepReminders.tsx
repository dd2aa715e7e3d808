import type { Problem } from '../problem.ts'
import type { KeepReminders } from '../uses/keepReminders.ts'
import { CUSTOMER_EN } from '../words/en/customer.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { Field, type Typed } from './form.tsx'
import { pathTo } from './frame.ts'

const w = CUSTOMER_EN.keep

type Props = {
  reminders: KeepReminders
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  /** Only the owner sets it and erases. */
  isOwner: boolean
}

/** Who may be erased, as the shop set it, and where that is set. */
export const KeepRemindersPart = ({ reminders, figures, typed, problems, isOwner }: Props) => {
  const { months, due } = reminders
  const shown: Typed =
    typed.has('months') || months === undefined ? typed : new Map([['months', [String(months)]]])
  return (
    <section class="card" id="keep">
      <h2>{w.head}</h2>
      {months === undefined ? (
        <p>{w.off}</p>
      ) : due.length === 0 ? (
        <p>{fill(w.nobody, { months: figures.number(months) })}</p>
      ) : (
        <>
          <p>{fill(w.about, { months: figures.number(months) })}</p>
          <ul class="ruled">
            {due.map(({ id, name, lastAt }) => (
              <li class="line">
                <a href={pathTo('customers', id)}>{name}</a>
                <span class="soft">
                  {lastAt === undefined ? w.undated : fill(w.last, { date: figures.date(lastAt) })}
                </span>
                {isOwner && <a href={`${pathTo('customers', id)}/erase`}>{w.look}</a>}
              </li>
            ))}
          </ul>
        </>
      )}
      <p class="soft">{w.law}</p>
      {isOwner && (
        <form method="post" action="/customers/keep" class="form">
          <Field
            name="months"
            label={w.months}
            hint={w.monthsHint}
            unit={w.unit}
            inputmode="numeric"
            typed={shown}
            problems={problems}
            narrow
          />
          <p class="actions">
            <button class="button quiet" type="submit">
              {w.save}
            </button>
          </p>
        </form>
      )}
    </section>
  )
}
