import type { Context, Hono } from 'hono'
import { setCookie } from 'hono/cookie'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import { GO_TO_EN } from '../words/en/goTo.ts'
import { who } from './access/who.ts'
import { idOf, ProblemSummary, textOf, typedOf } from './form.tsx'
import type { Web } from './frame.ts'
import { KeyList } from './keyList.tsx'
import { KEYS_COOKIE, keysAreOn } from './keySwitch.ts'
import { page } from './layout.tsx'
import { readForm } from './readForm.ts'

const W = GO_TO_EN.keys

const YEAR_S = 31_536_000

/** The keys, and the switch that WCAG 2.2, 2.1.4 asks for: of this browser, since it goes by who types how. */
export function keysRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (c: Context, problems: readonly Problem[] = []) => {
    const shop = await uses.shop()
    const isOn = keysAreOn(c)
    const first = problems[0]
    return page(
      c,
      { title: W.title, demo: options.demo, shopName: shop.name },
      <article class="card">
        <h1>{W.title}</h1>
        <ProblemSummary problems={problems} labels={() => W.title} kept="" />
        <p>{W.lead}</p>
        <KeyList asker={who(c)} />
        <form method="post" action="/keys">
          <p>
            <b>{isOn ? W.on : W.off}</b> {W.why}
          </p>
          <p class="actions">
            <button
              id={idOf('keys')}
              class="button quiet"
              type="submit"
              name="keys"
              value={isOn ? 'off' : 'on'}
            >
              {isOn ? W.switchOff : W.switchOn}
            </button>
          </p>
        </form>
      </article>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }
  app.get('/keys', (c) => show(c))
  app.post('/keys', async (c) => {
    const said = textOf(typedOf(await readForm(c)), 'keys')
    if (said !== 'on' && said !== 'off')
      return show(c, [{ code: 'not allowed', field: 'keys', got: said, allowed: 'on, off', next: W.unread }])
    setCookie(c, KEYS_COOKIE, said, { path: '/', httpOnly: true, sameSite: 'Lax', maxAge: YEAR_S })
    return c.redirect('/keys', 303)
  })
}
