import type { Context, Hono } from 'hono'
import { money, whole } from '../input/cells.ts'
import { QUANTITY_MOST } from '../input/matchAsk.ts'
import type { Problem, Result } from '../problem.ts'
import { ROUNDS_EN } from '../words/en/rounds.ts'
import { fill } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { Field, type Typed, textOf, typedOf } from './form.tsx'
import { param, readingFor, type Web } from './frame.ts'
import { readForm } from './readForm.ts'
import { counted, Grave, type Shown } from './roundParts.tsx'
import { pathToRound, Sure } from './rounds.tsx'
import { fieldReader } from './typed.ts'

const W = ROUNDS_EN.round

/** Of a part that is not bought yet: buy it for those who said yes, or call it off. */
export const Deal = (shown: Shown) => {
  const { view, figures } = shown
  const { row, isOpenDeal } = view
  if (row.kind !== 'deal' || row.state === 'draft' || row.state === 'called off') return null
  if (isOpenDeal) return <OpenDeal {...shown} />
  return (
    <section class="card">
      <h2>{W.deal}</h2>
      <p>
        {fill(W.boughtLine, {
          n: figures.number(row.boughtPieces ?? 0),
          at: row.boughtAt === undefined ? '' : figures.date(row.boughtAt),
        })}
      </p>
    </section>
  )
}

const OpenDeal = ({ view, figures, typed, problems }: Shown) => {
  const { row, result, seats } = view
  const wanted = row.wantedYeses ?? 1
  const yeses = seats.filter(({ standing }) => standing === 'counted').length
  const waiting = result.of.waiting.length
  const toTell = result.of.yes.length
  return (
    <section class="card form">
      <h2>{W.deal}</h2>
      <p>
        {counted(W.dealStock, wanted, figures, {
          ...{ wanted: figures.number(wanted), counted: figures.number(yeses) },
          asked: figures.number(result.of.asked.length),
        })}{' '}
        {fill(W.dealEnd, { date: figures.date(row.validUntil) })}
      </p>
      <form method="post" action={`${pathToRound(row.id)}/bought`}>
        <p class="hint">{W.boughtHint}</p>
        <div class="row">
          <Field
            name="boughtPieces"
            label={W.boughtPieces}
            typed={
              typed.has('boughtPieces') ? typed : new Map([['boughtPieces', [String(Math.max(1, yeses))]]])
            }
            problems={problems}
            inputmode="numeric"
            narrow
          />
          <Field
            name="boughtCost"
            label={W.boughtCost}
            typed={typed}
            problems={problems}
            inputmode="decimal"
            narrow
          />
        </div>
        <Sure problems={problems} says={ROUNDS_EN.list.boughtSure} />
        <button class="button" type="submit">
          {W.bought}
        </button>
      </form>
      <Grave view={view} step="call-off" head={W.notBought} says={W.notBoughtNow}>
        <p>{W.notBoughtMeans}</p>
        {waiting > 0 && <p>{counted(W.notBoughtWaiting, waiting, figures)}</p>}
        {toTell > 0 && <p>{counted(W.notBoughtTold, toTell, figures)}</p>}
        {view.items.map(({ item }) => (
          <p>{fill(W.dropPlace, { item: item.id })}</p>
        ))}
      </Grave>
    </section>
  )
}

/** The form that says what was bought. `show` draws the page again with what is wrong; `after` leads on. */
export function dealRoutes(
  app: Hono,
  { uses }: Web,
  show: (c: Context, typed: Typed, problems: readonly Problem[]) => Promise<Response>,
  after: (c: Context, done: Result<unknown>, typed?: Typed) => Promise<Response>,
): void {
  app.post('/rounds/:id/bought', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const pieces = reader.need('boughtPieces', whole(1, QUANTITY_MOST, 'pieces'), W.needPieces)
    const costMinor = reader.read('boughtCost', money)
    const knows = textOf(typed, 'sure') === 'yes'
    if (pieces === undefined || reader.problems.length > 0) return show(c, typed, reader.problems)
    return after(c, await uses.boughtFor(param(c, 'id'), { pieces, costMinor, knows }, nameOf(who(c))), typed)
  })
}
