import type { Context } from 'hono'
import { html } from 'hono/html'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { assets } from './assets.ts'
import { type Frame, PLACES } from './frame.ts'
import { MarkSheet } from './mark.tsx'

const Page = ({ frame, children }: { frame: Frame; children: Child }) => (
  <html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>{`${frame.title} · Stillfits`}</title>
      <link rel="icon" href={assets.icon} type="image/svg+xml" />
      <link rel="stylesheet" href={assets.css} />
      <script src={assets.script} defer></script>
    </head>
    <body>
      <a class="skip" href="#main">
        Skip to the page
      </a>
      <MarkSheet />
      {frame.demo && (
        <p class="demo" role="note">
          <b>Demo shop:</b> invented people, parts and prices. Nothing here is sent.
        </p>
      )}
      <header class="top">
        <a class="brand" href="/">
          Stillfits
        </a>
        <nav aria-label="Places">
          {PLACES.map(([name, href]) => (
            <a href={href} aria-current={frame.place === name ? 'page' : undefined}>
              {name}
            </a>
          ))}
        </nav>
      </header>
      <main id="main" tabindex={-1}>
        {children}
      </main>
      <footer class="foot">
        {frame.shopName && `${frame.shopName} · `}
        <a href="/rules">What every change is held against</a>
      </footer>
    </body>
  </html>
)

/** Answers with a whole page. JSX alone gives no doctype, and browsers would fall back to quirks mode. */
export const page = (c: Context, frame: Frame, body: Child, status: ContentfulStatusCode = 200) =>
  c.html(html`<!doctype html>${<Page frame={frame}>{body}</Page>}`, status)
