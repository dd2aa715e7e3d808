import type { Hono } from 'hono'
import { type AccessEvent, KEPT_DAYS, type KeptEvent } from '../../uses/access/accessLog.ts'
import type { Figures } from '../../words/figures.ts'
import { figuresOf, type Web } from '../frame.ts'
import { page } from '../layout.tsx'

/** What happened, as the owner reads it. */
const WORDS: Record<AccessEvent['what'], string> = {
  'signed in': 'Signed in',
  'sign-in refused': 'Sign-in refused',
  'signed out everywhere': 'Signed out everywhere',
  'password typed': 'Password typed once more',
  'password refused': 'Password refused',
  'password changed': 'Password changed',
  'code made': 'One-time code made',
  'code used': 'One-time code used',
  'account added': 'Account added',
  'account closed': 'Account closed',
  'account opened': 'Account opened again',
  'key made': 'Key made',
  'key taken back': 'Key taken back',
  'table exported': 'Table exported',
  'owner link made': 'Link for an owner made',
  'owner links taken back': 'Links of a machine taken back',
  'customer exported': 'All about a customer exported',
  'erase asked': 'An owner asked to be erased',
  'erase taken back': 'A wish to be erased was taken back',
  'customer erased': 'A customer erased',
}

const Line = ({ event, figures }: { event: KeptEvent; figures: Figures }) => (
  <tr>
    <td>
      {figures.dateTime(event.at)}
      {event.place !== undefined && <small class="block">from {event.place}</small>}
    </td>
    <td data-label="What">
      <b>{WORDS[event.what]}</b>
      {event.about !== undefined && event.about !== event.by && <small class="block">{event.about}</small>}
    </td>
    <td data-label="Who">{event.by ?? <span class="soft">nobody who is known</span>}</td>
  </tr>
)

/** Who did what, for the owner. */
export function accessLogRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/settings/access', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.accessLog(c.req.query('before'))])
    const figures = figuresOf(shop)
    return page(
      c,
      { title: 'Who did what', place: 'Settings', demo: options.demo, shopName: shop.name },
      <div class="stack">
        <div class="head">
          <h1>Who did what</h1>
          <a href="/settings">Back to the settings</a>
        </div>
        <p class="hint">
          What matters for access, the newest first. It is only added to, and kept for {KEPT_DAYS} days.
          “From” is a mark of a network: the same mark is the same network, and the network cannot be read
          from it. If something here was not you, sign out everywhere and choose another password.
        </p>
        {view.events.length === 0 ? (
          <p class="card empty">Nothing happened yet.</p>
        ) : (
          <table class="list">
            <thead>
              <tr>
                <th scope="col">When</th>
                <th scope="col">What</th>
                <th scope="col">Who</th>
              </tr>
            </thead>
            <tbody>
              {view.events.map((event) => (
                <Line event={event} figures={figures} />
              ))}
            </tbody>
          </table>
        )}
        {view.olderThan !== undefined && (
          <p class="actions">
            <a class="button quiet" href={`/settings/access?before=${view.olderThan}`}>
              Older ones
            </a>
          </p>
        )}
      </div>,
    )
  })
}
