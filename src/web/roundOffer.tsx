import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import { languageFor } from '../core/language.ts'
import { type OfferView, SAYS, type Says } from '../uses/rounds/yes.ts'
import { type OfferWords, offerWords } from '../words/rounds.ts'
import type { Piece } from '../words/say.ts'
import { fill } from '../words/say.ts'
import { type Tables, wordsIn } from '../words/tables.ts'
import { textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import { nowherePage, ownerPage } from './ownerFrame.tsx'
import { readForm } from './readForm.ts'

type Props = {
  readonly view: OfferView
  readonly said: OfferWords
  readonly o: Tables['roundOwner']
  readonly token: string
}

const Pieces = ({ pieces }: { pieces: readonly Piece[] }) => (
  <>{pieces.map(({ text, strong }) => (strong ? <b>{text}</b> : text))}</>
)

const Say = ({ token, says, children }: { token: string; says: Says; children: Child }) => (
  <form method="post" action={`/y/${encodeURIComponent(token)}`}>
    <input type="hidden" name="says" value={says} />
    <button class={says === 'yes' ? 'button' : 'button quiet'} type="submit">
      {children}
    </button>
  </form>
)

const Told = ({ head, more }: { head: string; more?: string | undefined }) => (
  <div class="kept" role="status">
    <p>
      <b>{head}</b>
    </p>
    {more !== undefined && <p>{more}</p>}
  </div>
)

/** What was said, and what can be said now. */
const Standing = ({ view, said, o, token }: Props) => {
  const { standing, isOpen, isLeft, isUnderWay, deal } = view
  const ask = (
    <>
      <div class="actions">
        <Say token={token} says="yes">
          {deal === undefined ? o.yes : o.yesDeal}
        </Say>
        {standing === 'asked' && (
          <Say token={token} says="no">
            {o.no}
          </Say>
        )}
      </div>
      <p class="soft">{said.yesMeans}</p>
    </>
  )
  if (view.isCalledOff)
    return <Told head={o.calledOff} more={view.hadTooFew ? o.calledOffFew : o.calledOffMore} />
  switch (standing) {
    case 'held':
      return isUnderWay ? (
        <Told head={o.held} more={o.underWay} />
      ) : (
        <>
          <Told
            head={o.held}
            more={said.day === undefined ? o.heldMore : fill(o.heldDay, { when: said.day })}
          />
          <Say token={token} says="back">
            {o.back}
          </Say>
        </>
      )
    case 'counted':
      return (
        <>
          <Told head={o.counted} more={fill(o.countedMore, { date: said.date })} />
          <Say token={token} says="back">
            {o.backDeal}
          </Say>
        </>
      )
    case 'done':
      return <Told head={o.done} />
    case 'to settle':
      return <Told head={o.toSettle} more={o.toSettleMore} />
    case 'too late':
      return (
        <>
          {deal !== undefined ? (
            <Told head={o.inLine} more={o.dealFull} />
          ) : isOpen && isLeft ? (
            <section>
              <h2>{o.againHead}</h2>
              <Say token={token} says="yes">
                {o.again}
              </Say>
            </section>
          ) : (
            <Told head={o.tooLate} more={o.tooLateMore} />
          )}
          <Say token={token} says="back">
            {o.backLine}
          </Say>
        </>
      )
    default:
      if (!isOpen)
        return (
          <>
            {standing === 'said no' && <Told head={o.saidNo} />}
            {standing === 'let go' && <Told head={o.letGo} />}
            <Told head={o.over} more={said.over} />
          </>
        )
      return (
        <>
          {standing === 'said no' && <Told head={o.saidNo} more={isLeft ? o.saidNoMore : undefined} />}
          {standing === 'let go' && <Told head={o.letGo} />}
          {isLeft ? (
            <section>
              {standing === 'asked' && <h2>{o.ask}</h2>}
              {ask}
            </section>
          ) : (
            standing === 'asked' && <Told head={o.gone} more={o.goneMore} />
          )}
        </>
      )
  }
}

const Body = (props: Props) => {
  const { view, said, o } = props
  const isAsking = view.isOpen && view.isLeft && view.standing !== 'held'
  return (
    <>
      <header class="owner-head">
        <p class="line">
          <span class="tag">{said.tag}</span> <span class="soft">{said.from}</span>
        </p>
        <h1>{said.title}</h1>
      </header>
      <section class="card">
        <p>
          <b>{said.lead}</b>
        </p>
        <p class="soft">{said.fps}</p>
        {isAsking && (
          <>
            {/* What came back is kept for the first in line: nobody else can have it. */}
            {view.standing !== 'too late' && said.stock.map((line) => <p>{line}</p>)}
            {view.deal === undefined && <p>{said.until}</p>}
          </>
        )}
        <Standing {...props} />
      </section>
      {said.games !== undefined && (
        <section class="card">
          <h2>{o.games}</h2>
          <ul class="ruled">
            {said.games.rows.map(({ title, says, notes }) => (
              <li>
                <p>
                  <b>{title}</b>
                </p>
                <p>
                  <Pieces pieces={says} />
                </p>
                {notes.map((note) => (
                  <p class="soft">{note}</p>
                ))}
              </li>
            ))}
          </ul>
          {said.games.more.map((line) => (
            <p class="soft">{line}</p>
          ))}
        </section>
      )}
      {said.price !== undefined && (
        <section class="card">
          <h2>{o.price}</h2>
          <table class="sums">
            <tbody>
              {said.price.rows.map(({ what, note, figure, sum }) => (
                <tr>
                  <th scope="row">
                    {sum ? <b>{what}</b> : what}
                    {note !== undefined && <small class="block">{note}</small>}
                  </th>
                  <td class="right">{sum ? <b>{figure}</b> : figure}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {said.price.notes.map((note) => (
            <p class="soft">{note}</p>
          ))}
        </section>
      )}
    </>
  )
}

/**
 * The page behind an offer's link: what, for how much, what it gains, until when; yes or no thank you. Looking says nothing,
 * because programs follow links before people do.
 */
export function roundOfferRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const show = (c: Context, token: string, view: OfferView) => {
    const { shop, customer } = view.answer.inputs
    const language = languageFor(shop.locale, customer?.language)
    const said = offerWords(view)
    const props = { view, said, o: wordsIn(language).roundOwner, token }
    return ownerPage(c, said.title, options.demo, <Body {...props} />, 200, language)
  }

  app.get('/y/:token', async (c) => {
    const token = param(c, 'token')
    const view = await uses.offerByLink(token)
    return view.ok ? show(c, token, view.value) : nowherePage(c, web)
  })

  app.post('/y/:token', async (c) => {
    const token = param(c, 'token')
    const asked = textOf(typedOf(await readForm(c)), 'says')
    const says = SAYS.find((one) => one === asked)
    const view = says === undefined ? await uses.offerByLink(token) : await uses.sayByLink(token, says)
    if (!view.ok) return nowherePage(c, web)
    // A reload must not send it again.
    return c.redirect(`/y/${encodeURIComponent(token)}`, 303)
  })
}
