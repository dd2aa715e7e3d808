import type { Context } from 'hono'
import { html } from 'hono/html'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { FORM_EN } from '../words/en/form.ts'
import { GO_TO_EN } from '../words/en/goTo.ts'
import { rowOf } from './access/rights.ts'
import { mayDo, type Who, who } from './access/who.ts'
import { assets } from './assets.ts'
import { FindBox } from './findBox.tsx'
import { type Frame, PLACES } from './frame.ts'
import { KeyHelp } from './keyList.tsx'
import { keysAreOn } from './keySwitch.ts'
import { MarkSheet } from './mark.tsx'

/** Places this one may go to; a stranger sees none. */
const placesFor = (asker: Who | undefined) =>
  PLACES.filter(([, href]) => {
    const row = rowOf('GET', href)
    return asker !== undefined && row !== undefined && mayDo(asker, row)
  })

/** The account, for whoever is signed in. */
const Signed = ({ asker }: { asker: Who | undefined }) =>
  asker?.kind === 'owner' || asker?.kind === 'staff' ? (
    <a class="who" href="/account" aria-label={`Your account: ${asker.name}`}>
      {asker.name}
    </a>
  ) : null

/** Pages about the program, at the end of every page. */
const FOOT = ['/rules', '/api', '/keys'] as const

type PageProps = {
  frame: Frame
  asker: Who | undefined
  /** Whether single keys do something. */
  hasKeys: boolean
  children: Child
}

const Page = ({ frame, asker, hasKeys, children }: PageProps) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{`${frame.title} · Stillfits`}</title>
      <link rel="icon" href={assets.icon} type="image/svg+xml" />
      <link rel="stylesheet" href={assets.css} />
      <script src={assets.script} defer></script>
      {frame.again !== undefined && (
        <noscript>
          <meta http-equiv="refresh" content={String(frame.again)} />
        </noscript>
      )}
    </head>
    <body>
      <a class="skip" href="#main">
        Skip to the page
      </a>
      <MarkSheet />
      {frame.demo && (
        <p class="demo" role="note">
          <b>{FORM_EN.demo.head}</b> {FORM_EN.demo.says}
        </p>
      )}
      <header class="top">
        <a class="brand" href="/">
          Stillfits
        </a>
        {asker !== undefined && (
          <nav aria-label="Places">
            {placesFor(asker).map(([name, href]) => (
              <a href={href} aria-current={frame.place === name ? 'page' : undefined}>
                {name}
              </a>
            ))}
          </nav>
        )}
        {asker !== undefined && <FindBox asker={asker} sought={frame.sought} isWrong={frame.isWrong} />}
        <Signed asker={asker} />
      </header>
      <main id="main" tabindex={-1}>
        {children}
      </main>
      <footer class="foot">
        {frame.shopName && <span>{frame.shopName}</span>}
        {asker !== undefined &&
          FOOT.map((href) => (
            <span>
              <a href={href}>{GO_TO_EN.pages[href][0]}</a>
            </span>
          ))}
      </footer>
      {asker !== undefined && hasKeys && <KeyHelp asker={asker} />}
    </body>
  </html>
)

/** Answers with a whole page. JSX alone gives no doctype, and browsers would fall back to quirks mode. */
export const page = (c: Context, frame: Frame, body: Child, status: ContentfulStatusCode = 200) =>
  c.html(
    html`<!doctype html>${(
      <Page frame={frame} asker={who(c)} hasKeys={keysAreOn(c)}>
        {body}
      </Page>
    )}`,
    status,
  )
