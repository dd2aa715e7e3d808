import type { Hono } from 'hono'
import { nameOf, who } from './access/who.ts'
import { textOf, typedOf } from './form.tsx'
import { param, type Web } from './frame.ts'
import { pathToMail } from './outboxParts.tsx'
import { ownerUrl } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'

/** From where a message is written into the outbox. */
export function outboxPutRoutes(app: Hono, web: Web): void {
  const { uses } = web

  app.post('/messages/:id/outbox', async (c) => {
    const put = await uses.draftAnswerMail(param(c, 'id'), nameOf(who(c)))
    return put.ok
      ? c.redirect(pathToMail(put.value.mailId), 303)
      : problemPage(c, web, put.problems, 'Questions')
  })

  app.post('/jobs/:id/outbox', async (c) => {
    const put = await uses.draftJobMail(param(c, 'id'), nameOf(who(c)))
    return put.ok
      ? c.redirect(pathToMail(put.value.mailId), 303)
      : problemPage(c, web, put.problems, 'Questions')
  })

  app.post('/sell/:tag/message/outbox', async (c) => {
    const token = textOf(typedOf(await readForm(c)), 'token')
    const link = token === undefined ? undefined : { token, url: ownerUrl(c, web, token) }
    const put = await uses.draftSheetMail(param(c, 'tag'), link, nameOf(who(c)))
    return put.ok
      ? c.redirect(pathToMail(put.value.mailId), 303)
      : problemPage(c, web, put.problems, 'Machines')
  })
}
