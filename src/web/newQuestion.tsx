import type { Context, Hono } from 'hono'
import { MESSAGE_MAX, type MessageRead, readMessage } from '../core/reading/message.ts'
import { signOf } from '../input/numbers.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { TitlesTested } from '../uses/titlesTested.ts'
import type { Known } from '../uses/views.ts'
import { MESSAGE_EN } from '../words/en/reading.ts'
import { sayRead } from '../words/reading.ts'
import { Field, FirstSubmit, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { QuestionBody } from './questionBody.tsx'
import type { FieldsProps } from './questionFields.tsx'
import {
  filledFrom,
  minorTextOf,
  newQuestionOf,
  questionLabel,
  ROWS_MAX,
  withTitles,
} from './questionForm.ts'
import { WhatWasFilled } from './questionTitles.tsx'
import { readForm } from './readForm.ts'
import { isReady, Steps } from './steps.tsx'

type FormProps = FieldsProps & {
  known: Known
  /** What a pasted message gave, in sentences. */
  read?: readonly string[] | undefined
  /** Whose titles were filled in. */
  filled?: TitlesTested | undefined
}

/** A message from a chat, read into the form; nothing of it is saved before somebody looked. */
const Paste = ({ typed, problems }: FormProps) => (
  <details class="paste" open={problems.some((p) => p.field === 'message')}>
    <summary>Paste the message</summary>
    <Field
      name="message"
      label="The message, as it came"
      hint="What is sure in it fills the form below: tag, titles, money, frame rates, display, a part. You check it."
      rows={5}
      typed={typed}
      problems={problems}
    />
    <button class="button quiet" type="submit" name="do" value="read">
      Read it into the form
    </button>
  </details>
)

const WhatWasRead = ({ read }: { read: readonly string[] | undefined }) =>
  read === undefined ? null : (
    <section class="kept" aria-label="What was read" role="status">
      <p>
        <b>{read.length === 0 ? 'Nothing in it was sure.' : 'Read from the message. Check it, then save.'}</b>
      </p>
      {read.length > 0 && (
        <ul>
          {read.map((line) => (
            <li>{line}</li>
          ))}
        </ul>
      )}
    </section>
  )

const QuestionForm = (props: FormProps) => {
  const { known, typed, problems } = props
  return (
    <form method="post" action="/questions/new" class="card form asking">
      <FirstSubmit value="save" />
      <OnceKey />
      <h1>Take down a question</h1>
      {!isReady(known.ready) && (
        <section class="kept" aria-label="Still needed">
          <p>
            <b>Something is still needed before a question can be answered.</b>
          </p>
          <Steps ready={known.ready} />
        </section>
      )}
      <ProblemSummary problems={problems} labels={questionLabel} />
      <Paste {...props} />
      <WhatWasRead read={props.read} />
      <WhatWasFilled filled={props.filled} />
      <Field
        name="machineTag"
        label="Machine"
        hint="The tag on the case label, or the owner’s name or part of it."
        list="tags"
        typed={typed}
        problems={problems}
        required
      />
      <datalist id="tags">
        {known.machines.map((m) => (
          <option value={m.tag}>
            {[m.ownerName, m.processorName, m.cardName].filter((part) => part !== undefined).join(', ')}
          </option>
        ))}
      </datalist>
      <QuestionBody {...props} />
      <p class="actions">
        <button class="button" type="submit" name="do" value="save">
          Save the question
        </button>
        <a href="/">Cancel</a>
      </p>
    </form>
  )
}

export function newQuestionRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (
    c: Context,
    typed: Typed,
    problems: readonly Problem[],
    more: { oneMore?: boolean; read?: readonly string[]; filled?: TitlesTested } = {},
  ) => {
    const [shop, known] = await Promise.all([uses.shop(), uses.known()])
    const frame = { title: 'Take down a question', place: 'Questions', demo: options.demo } as const
    const { titles, settings } = known
    const fields = { titles, settings, currency: shop.policy.currency, by: 'shop' as const }
    const first = problems[0]
    return page(
      c,
      { ...frame, shopName: shop.name },
      <QuestionForm
        {...fields}
        {...{ known, typed, problems, read: more.read, filled: more.filled }}
        {...{ oneMore: more.oneMore === true, canFill: true }}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  const readInto = async (c: Context, typed: Typed) => {
    const message = textOf(typed, 'message')
    if (message === undefined || message.length > MESSAGE_MAX) {
      const next =
        message === undefined
          ? 'Paste the message first.'
          : `This is longer than ${MESSAGE_MAX} signs. Paste the part with the question.`
      return show(c, typed, [
        { code: message === undefined ? 'missing' : 'not allowed', field: 'message', next },
      ])
    }
    const [shop, known] = await Promise.all([uses.shop(), uses.known()])
    const { currency } = shop.policy
    const figures = figuresOf(shop)
    const read: MessageRead = readMessage(message, MESSAGE_EN, {
      tags: await uses.tags(),
      titles: known.titles,
      parts: known.parts,
      ...{ currency, currencySign: signOf(currency) },
    })
    const filled = filledFrom(typed, message, read, minorTextOf(figures.minorDigits))
    return show(c, filled, [], { read: sayRead(read, known.titles, figures) })
  }

  const fillTested = async (c: Context, typed: Typed) => {
    const machineTag = textOf(typed, 'machineTag')
    if (machineTag === undefined) {
      const next = 'Give the tag or the owner’s name first; then its titles can be filled in.'
      return show(c, typed, [{ code: 'missing', field: 'machineTag', next }])
    }
    const tested = await uses.titlesTested(machineTag, ROWS_MAX)
    if (!tested.ok) return show(c, typed, tested.problems)
    return show(c, withTitles(typed, tested.value.wanted), [], { filled: tested.value })
  }

  app.get('/questions/new', (c) => {
    const given = ['machine', 'asks'].flatMap((name) => {
      const value = c.req.query(name)
      return value === undefined ? [] : [[name === 'machine' ? 'machineTag' : name, [value]] as const]
    })
    return show(c, new Map(given), [])
  })

  app.post('/questions/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const what = typed.get('do')?.[0]
    if (what === 'more') return show(c, typed, [], { oneMore: true })
    if (what === 'read') return readInto(c, typed)
    if (what === 'tested') return fillTested(c, typed)
    const read = newQuestionOf(typed, readingFor(await uses.shop()))
    const taken = read.ok ? await uses.takeQuestion(read.value) : read
    if (!taken.ok) return show(c, typed, taken.problems)
    return c.redirect(pathTo('questions', taken.value.id), 303)
  })
}
