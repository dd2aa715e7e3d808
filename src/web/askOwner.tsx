import type { Context, Hono } from 'hono'
import { languageFor } from '../core/language.ts'
import { LIMIT_KEYS } from '../core/limits/catalogue.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import { askOwnerText, wantedWords } from '../words/askOwner.ts'
import { LIMIT_WORDS } from '../words/en/limits.ts'
import { curly } from '../words/say.ts'
import { nameOf, who } from './access/who.ts'
import { enterableKey } from './claimForm.ts'
import { CopyText } from './copyText.tsx'
import { type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { pathToMail } from './outboxParts.tsx'
import { ownerUrl, ReachNote } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'

type Asked = { tag: string; limitKey: LimitKey; questionId: string | undefined }

const Why = ({ limitKey }: { limitKey: LimitKey }) => {
  const { meaning, findOut } = LIMIT_WORDS[limitKey]
  const { what, saysMeaning } = wantedWords(limitKey)
  return (
    <>
      <h1>I need one thing: {what}</h1>
      {saysMeaning && <p>{curly(meaning)}</p>}
      <p>{curly(findOut)} A photo will do as well.</p>
    </>
  )
}

const Before = ({ tag, limitKey, questionId, hasAddress }: Asked & { hasAddress: boolean }) => (
  <form method="post" action="/ask" class="card form slim">
    <OnceKey />
    <p class="line">
      <Tag tag={tag} />
    </p>
    <Why limitKey={limitKey} />
    <p class="soft">
      It is written down that the owner was asked
      {questionId === undefined ? '' : ', and the question waits'}. When the limit arrives, from the owner or
      from you, {questionId === undefined ? 'it is off the list' : 'the question goes on by itself'}.
    </p>
    <input type="hidden" name="machine" value={tag} />
    <input type="hidden" name="limit" value={limitKey} />
    {questionId !== undefined && <input type="hidden" name="question" value={questionId} />}
    <p class="actions">
      {hasAddress && (
        <button class="button" type="submit" name="do" value="mail">
          Ask by mail, with a link
        </button>
      )}
      <button class={hasAddress ? 'button quiet' : 'button'} type="submit" name="do" value="link">
        Ask, with a link for the owner
      </button>
      <button class="button quiet" type="submit" name="do" value="plain">
        Ask without a link
      </button>
    </p>
    {hasAddress && (
      <p class="soft">
        By mail: it lies in the outbox and goes out when you approve it. Otherwise you get a text to send
        where you talk.
      </p>
    )}
  </form>
)

const After = (props: Asked & { text: string; link: string | undefined; until: string | undefined }) => (
  <article class="card slim">
    <p class="line">
      <Tag tag={props.tag} />
    </p>
    <h1>Asked. Send this to the owner</h1>
    <CopyText id="ask-text" label="Text for the owner" text={props.text} rows={11} />
    {props.until !== undefined && (
      <p class="soft">
        The link holds until {props.until}, and only for this machine. It is shown this once.
      </p>
    )}
    <ReachNote link={props.link} />
    <p class="actions">
      <a
        class="button quiet"
        href={
          props.questionId === undefined
            ? pathTo('machines', props.tag)
            : pathTo('questions', props.questionId)
        }
      >
        {props.questionId === undefined ? `Back to machine ${props.tag}` : 'Back to the question'}
      </a>
    </p>
  </article>
)

export function askOwnerRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const frame = { title: 'I need one thing', place: 'Questions', demo: options.demo } as const
  const askedOf = async (c: Context, typed: Typed) => {
    const limitKey = LIMIT_KEYS.find((key) => key === textOf(typed, 'limit'))
    const machine = await uses.machine(textOf(typed, 'machine') ?? '')
    if (!machine.ok) return { refused: await problemPage(c, web, machine.problems, 'Questions') }
    if (limitKey === undefined || enterableKey(limitKey) === undefined) {
      const next = 'This limit follows from the parts and the published tables: no owner is asked for it.'
      const problem = { code: 'not allowed', field: 'limit', next } as const
      return { refused: await problemPage(c, web, [problem], 'Questions') }
    }
    const view = machine.value
    return { view, limitKey, tag: view.machine.tag, questionId: textOf(typed, 'question') }
  }

  app.get('/ask', async (c) => {
    const asked = await askedOf(c, new Map(Object.entries(c.req.query()).map(([k, v]) => [k, [v]])))
    if ('refused' in asked) return asked.refused
    const shop = await uses.shop()
    const hasAddress = asked.view.owner?.email !== undefined
    return page(c, { ...frame, shopName: shop.name }, <Before {...asked} hasAddress={hasAddress} />)
  })

  app.post('/ask', async (c) => {
    const typed = typedOf(await readForm(c))
    const asked = await askedOf(c, typed)
    if ('refused' in asked) return asked.refused
    const { tag, limitKey, questionId, view } = asked
    const done = await uses.askOwner({ machineTag: tag, limitKey, questionId })
    if (!done.ok) return problemPage(c, web, done.problems, 'Questions')
    const shop = await uses.shop()
    const made = textOf(typed, 'do') === 'plain' ? undefined : await uses.makeOwnerLink(tag, nameOf(who(c)))
    if (made?.ok === false) return problemPage(c, web, made.problems, 'Questions')
    const link = made && ownerUrl(c, web, made.value.token)
    if (textOf(typed, 'do') === 'mail') {
      const put = await uses.draftAskOneMail({ tag, limitKey, questionId, link }, nameOf(who(c)))
      return put.ok
        ? c.redirect(pathToMail(put.value.mailId), 303)
        : problemPage(c, web, put.problems, 'Questions')
    }
    const text = askOwnerText({
      ...{ limitKey, tag, builder: shop.builder, shop: shop.name, link },
      ownerName: view.owner?.name,
      language: languageFor(shop.locale, view.owner?.language),
    })
    const until = made && figuresOf(shop).date(made.value.expiresAt)
    return page(
      c,
      { ...frame, shopName: shop.name },
      <After {...{ tag, limitKey, questionId, text, until, link }} />,
    )
  })
}
