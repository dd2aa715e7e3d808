import type { Hono } from 'hono'
import { param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { labelUrl, ReachNote } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'

/** The label for a machine's case: to print, in the sizes that labels are cut to. */
export function caseLabelRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/machines/:tag/label', async (c) => {
    const [shop, label] = await Promise.all([uses.shop(), uses.caseLabel(param(c, 'tag'))])
    if (!label.ok) return problemPage(c, web, label.problems, 'Machines')
    const { tag, code } = label.value
    const path = pathTo('machines', tag)
    const link = labelUrl(c, web, code)
    return page(
      c,
      { title: `Label ${tag}`, place: 'Machines', demo: options.demo, shopName: shop.name },
      <article class="card slim">
        <h1>Label for {tag}</h1>
        <p>
          Whoever holds a phone to its code sees the machine’s limits sheet: parts, limits and frame rates.
          Nothing of its owner, of questions or of prices.
        </p>
        <ReachNote link={link} />
        <ul class="ruled labels">
          {uses.labelSizes.map((size) => (
            <li>
              <p>
                <b>{size.replace('x', ' × ')} mm</b>{' '}
                <a href={`${path}/label.pdf?size=${size}`}>
                  PDF<span class="unseen"> of {size.replace('x', ' by ')} mm</span>
                </a>{' '}
                ·{' '}
                <a href={`${path}/label.svg?size=${size}`}>
                  SVG<span class="unseen"> of {size.replace('x', ' by ')} mm</span>
                </a>
              </p>
            </li>
          ))}
        </ul>
        <p>
          It leads to <code>{link}</code>
        </p>
        <details>
          <summary>Another code</summary>
          <p>
            For a label that got into wrong hands. The label on the case leads nowhere then, and needs to be
            printed again.
          </p>
          <form method="post" action={`${path}/label`}>
            <OnceKey />
            <button class="button quiet" type="submit">
              Make another code
            </button>
          </form>
        </details>
        <p>
          <a href={path}>Back to the machine</a>
        </p>
      </article>,
    )
  })

  app.post('/machines/:tag/label', async (c) => {
    const label = await uses.anotherLabel(param(c, 'tag'))
    if (!label.ok) return problemPage(c, web, label.problems, 'Machines')
    return c.redirect(`${pathTo('machines', label.value.tag)}/label`, 303)
  })

  for (const as of ['svg', 'pdf'] as const)
    app.get(`/machines/:tag/label.${as}`, async (c) => {
      const label = await uses.caseLabel(param(c, 'tag'))
      if (!label.ok) return problemPage(c, web, label.problems, 'Machines')
      const { tag, code } = label.value
      const size = c.req.query('size') ?? uses.labelSizes[0] ?? ''
      const drawn = await uses.drawLabel(tag, labelUrl(c, web, code), size, as)
      if (drawn === undefined) {
        const next = `Labels are cut to ${uses.labelSizes.join(', ')} mm. Choose one of these.`
        return problemPage(c, web, [{ code: 'not allowed', field: 'size', got: size, next }], 'Machines')
      }
      c.header('Content-Type', as === 'svg' ? 'image/svg+xml; charset=utf-8' : 'application/pdf')
      return c.body(drawn)
    })
}
