import { ROUNDS_EN } from '../words/en/rounds.ts'
import { fill } from '../words/say.ts'
import { Bar, counted, Grave, type Shown, Step } from './roundParts.tsx'
import { pathToRound } from './rounds.tsx'

const W = ROUNDS_EN.round

/** How far the offers of a draft are, or why there are none. */
export const Preparing = ({ view, figures }: Shown) => {
  const { row, prepared } = view
  if (row.trouble !== undefined)
    return (
      <section class="card">
        <p class="wrong" role="alert">
          {W.trouble}
        </p>
        <Step view={view} step="again" says={W.tryAgain} />
      </section>
    )
  return (
    <section class="card">
      <h2>{W.preparing}</h2>
      <p role="status">
        {prepared.of === 0
          ? W.finding
          : counted(W.prepared, prepared.of, figures, {
              ...{ done: figures.number(prepared.done), of: figures.number(prepared.of) },
            })}
      </p>
      <Bar done={prepared.done} of={prepared.of} label={W.preparing} />
      <p>
        <a href={pathToRound(row.id)}>{W.look}</a>
      </p>
    </section>
  )
}

/** A draft goes out as it stands, or is dropped. */
export const Draft = ({ view, figures, now }: Shown & { readonly now: string }) => {
  const { row, seen, hasReach, result } = view
  const n = result.of.asked.length
  const wanted = row.kind === 'deal' ? (row.wantedYeses ?? 1) : 0
  const inTheWay =
    n === 0
      ? W.nobody
      : now > row.validUntil
        ? ROUNDS_EN.refused.ranOut
        : wanted > n
          ? counted(ROUNDS_EN.refused.tooFewAsked, n, figures, {
              ...{ asked: figures.number(n), wanted: figures.number(wanted) },
            })
          : undefined
  const places = row.kind === 'deal' ? view.items : []
  return (
    <section class="card">
      {!hasReach && (
        <p class="nothing" role="note">
          {W.noReach}
        </p>
      )}
      {inTheWay !== undefined ? (
        <p class="nothing">{inTheWay}</p>
      ) : (
        <form method="post" action={`${pathToRound(row.id)}/begin`}>
          <input type="hidden" name="seen" value={seen} />
          <p>{W.beginHint}</p>
          <button class="button" type="submit">
            {counted(W.begin, n, figures)}
          </button>
        </form>
      )}
      <Grave view={view} step="call-off" head={W.drop} says={W.dropNow}>
        <p>{W.dropMeans}</p>
        {places.map(({ item }) => (
          <p>{fill(W.dropPlace, { item: item.id })}</p>
        ))}
      </Grave>
    </section>
  )
}

/** How the mails go, and what can be done about that. */
export const Going = ({ view, figures }: Shown) => {
  const { row, result, isOpenDeal } = view
  const { state } = row
  if (state === 'draft' || state === 'ended' || state === 'called off') return null
  const [of, sent] = [result.of.asked.length, result.of.sent.length]
  const figure = (list: readonly string[]) => figures.number(list.length)
  const held = result.of.reserved.length
  return (
    <section class="card">
      <h2>{W.sending}</h2>
      <p role="status">
        {fill(W.progress, {
          ...{ sent: figures.number(sent), of: figures.number(of) },
          ...{ waiting: figure(result.of.waiting), stopped: figure(result.of['not sent']) },
        })}
      </p>
      {result.of['in doubt'].length > 0 && (
        <p>
          {counted(W.inDoubt, result.of['in doubt'].length, figures)}{' '}
          <a href="/outbox?group=held">{W.toOutbox}</a>
        </p>
      )}
      <Bar done={sent} of={of} label={W.sending} />
      <div class="actions">
        {state === 'going out' && result.of.waiting.length > 0 && (
          <Step view={view} step="pause" says={W.pause} />
        )}
        {state === 'paused' && <Step view={view} step="resume" says={W.resume} />}
      </div>
      {(state !== 'stopped' || !isOpenDeal) && (
        <details class="fold">
          <summary>{W.more}</summary>
          {state !== 'stopped' && (
            <>
              <p class="soft">{W.stopHint}</p>
              <Step view={view} step="stop" says={W.stop} quiet />
            </>
          )}
          {!isOpenDeal && (
            <>
              <p class="soft">
                {W.endHint} {held > 0 && counted(W.stays, held, figures)}
              </p>
              <Step view={view} step="end" says={W.end} quiet />
            </>
          )}
        </details>
      )}
    </section>
  )
}
