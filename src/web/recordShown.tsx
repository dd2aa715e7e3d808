import type { Child } from 'hono/jsx'
import type { CustomerRecord } from '../uses/customerRecord.ts'
import type { Figures } from '../words/figures.ts'
import { customerLabel } from '../words/limits.ts'
import { curly, fill } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'

const Group = ({ head, none, rows }: { head: string; none: string; rows: readonly Child[] }) => (
  <section>
    <h2>{head}</h2>
    {rows.length === 0 ? (
      <p class="soft">{none}</p>
    ) : (
      <ul class="ruled">
        {rows.map((row) => (
          <li>{row}</li>
        ))}
      </ul>
    )}
  </section>
)

const Words = ({ head, text }: { head: string; text: string | undefined }) => (
  <details>
    <summary>{head}</summary>
    <p class="letter-text">{text ?? ''}</p>
  </details>
)

/** All that is kept of one customer, to be read and printed. */
export const RecordShown = ({ record, figures }: { record: CustomerRecord; figures: Figures }) => {
  const { customer } = record
  const { ownerPerson, consent, owner } = wordsIn(figures.language)
  const w = ownerPerson.record
  const { none } = w
  const day = (at: string) => figures.date(at)
  const particulars = [
    [w.name, customer.name],
    [w.email, customer.email],
    [w.phone, customer.phone],
    [w.note, customer.note],
  ] as const
  const note = (text: string | undefined) => text !== undefined && <small class="block">{text}</small>
  const ours = (text: string | undefined) => note(text && fill(w.noteOf, { note: text }))
  return (
    <>
      <section>
        <h2>{w.person}</h2>
        <dl class="limits">
          {particulars.map(
            ([name, value]) =>
              value !== undefined && (
                <div>
                  <dt>{name}</dt>
                  <dd>{value}</dd>
                </div>
              ),
          )}
        </dl>
      </section>
      <Group
        none={none}
        head={w.consents}
        rows={record.consents.map(({ standing, at, source, wording }) => (
          <>
            <b>{w[standing]}</b> {day(at)}, {consent.sources[source]}:{' '}
            {fill(owner.quoted, { words: wording })}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.machines}
        rows={record.machines.map(({ tag, soldAt, until, note: about }) => (
          <>
            <span class="tag">{tag}</span> {soldAt !== undefined && day(soldAt)}{' '}
            {until !== undefined && fill(w.until, { date: day(until) })}
            {ours(about)}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.questions}
        rows={record.questions.map(({ machineTag, words, askedAt, told, written = [] }) => (
          <>
            <b>{fill(owner.quoted, { words })}</b>{' '}
            <span class="soft">
              {machineTag}, {day(askedAt)}
            </span>
            {told.map(({ at, text }) => (
              <Words head={fill(w.told, { date: day(at) })} text={text} />
            ))}
            {written.map(({ at, text }) => (
              <Words head={fill(w.written, { date: day(at) })} text={text} />
            ))}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.jobs}
        rows={record.jobs.map(
          ({ id, machineTag, agreedAt, agreedMinor, settledAt, settledMinor, note: about }) => (
            <>
              {id}, {machineTag}: {fill(w.agreed, { money: figures.money(agreedMinor), date: day(agreedAt) })}
              {settledAt !== undefined &&
                settledMinor !== undefined &&
                `, ${fill(w.paid, { money: figures.money(settledMinor), date: day(settledAt) })}`}
              {ours(about)}
            </>
          ),
        )}
      />
      <Group
        none={none}
        head={w.reports}
        rows={record.reports.map(({ machineTag, at, titleId, title = titleId, averageFps, note: about }) => (
          <>
            {machineTag}, {title}: {figures.fps(averageFps)}, {day(at)}
            {note(about)}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.requests}
        rows={record.requests.map(({ machineTag, limitKey, askedAt, note: about }) => (
          <>
            {machineTag}: {curly(customerLabel(limitKey, figures.language))}, {day(askedAt)}
            {ours(about)}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.photos}
        rows={record.photos.map(({ machineTag, takenBy, at, note: about }) => (
          <>
            {machineTag}:{' '}
            {fill(w.photo, { by: w.takers[takenBy === 'owner' ? 'owner' : 'shop'], date: day(at) })}
            {ours(about)}
          </>
        ))}
      />
      {record.readings.length > 0 && (
        <Group
          none={none}
          head={w.readings}
          rows={record.readings.map(({ machineTag, at, takenAt, asideAt }) => (
            <>
              {machineTag}, {day(at)}:{' '}
              {takenAt !== undefined
                ? fill(w.readingTaken, { date: day(takenAt) })
                : asideAt !== undefined
                  ? fill(w.readingAside, { date: day(asideAt) })
                  : w.pending}
            </>
          ))}
        />
      )}
      <Group
        none={none}
        head={w.sheets}
        rows={record.sheets.map(({ machineTag, at, message }) => (
          <>
            {machineTag}, {day(at)}
            {message !== undefined && <p class="letter-text">{message}</p>}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.mails}
        rows={record.mails.map(({ machineTag, state, at, subject, text }) => (
          <>
            <b>{subject}</b>{' '}
            <span class="soft">
              {machineTag !== undefined && `${machineTag}, `}
              {day(at)}, {w.mailStates[state] ?? state}
            </span>
            <Words head={fill(w.mailText, { date: day(at) })} text={text} />
          </>
        ))}
      />
      <Group
        none={none}
        head={w.offers}
        rows={record.offers.map(({ machineTag, standing, askedAt, saidAt, dueMinor, note }) => (
          <>
            {machineTag !== undefined && `${machineTag}, `}
            {askedAt !== undefined && `${day(askedAt)}, `}
            {dueMinor !== undefined && `${figures.money(dueMinor)}: `}
            {w.standings[standing]}
            {saidAt !== undefined && `, ${day(saidAt)}`}
            {note !== undefined && <p>{note}</p>}
          </>
        ))}
      />
      <Group
        none={none}
        head={w.links}
        rows={record.links.map(({ machineTag, createdAt, expiresAt, revokedAt }) => (
          <>
            {machineTag}:{' '}
            {fill(revokedAt === undefined ? w.holds : w.ended, {
              date: day(createdAt),
              until: day(revokedAt ?? expiresAt),
            })}
          </>
        ))}
      />
    </>
  )
}
