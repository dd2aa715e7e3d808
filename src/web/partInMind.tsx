import type { Context, Hono } from 'hono'
import type { Answer } from '../core/answer.ts'
import type { PartAsked } from '../core/asked/asked.ts'
import { modelStands, recordsLike } from '../core/asked/inMind.ts'
import type { Part } from '../core/part.ts'
import { line } from '../input/cells.ts'
import { failed, ok, type Problem, type Result, STATUS_OF } from '../problem.ts'
import { noPartInMind } from '../uses/partInMind.ts'
import { KIND_WORDS } from '../words/options.ts'
import { capital } from '../words/say.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { param, pathTo, pathToPart, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { describedPart, partLabel, typedFromPart } from './partForm.ts'
import { FiguresFields } from './parts.tsx'
import { problemPage } from './problem.tsx'
import { PART_WORDS_MAX } from './questionForm.ts'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'
import { stopped } from './waiting.tsx'

/** Where the figures of a part in mind that the shop has no record of are typed. */
export const pathToPartInMind = (questionId: string): string => `${pathTo('questions', questionId)}/part`

type Props = {
  answer: Answer
  asked: PartAsked
  /** Records that the owner's words may mean. */
  like: readonly Part[]
  typed: Typed
  problems: readonly Problem[]
}

const IsItThis = ({ questionId, like }: { questionId: string; like: readonly Part[] }) =>
  like.length === 0 ? null : (
    <section class="kept">
      <p>
        <b>{like.length === 1 ? 'Is it this one?' : 'Is it one of these?'}</b> Then its record is judged, and
        no figure has to be typed.
      </p>
      <form method="post" action={pathToPartInMind(questionId)} class="actions">
        {like.map(({ id, name }) => (
          <button class="button quiet" type="submit" name="record" value={id}>
            It is {name}
          </button>
        ))}
      </form>
    </section>
  )

/** One line tells all figures at once; so it is asked for before any of them. */
const WhichModel = ({ answer, typed, problems }: Props) => {
  const { partInMind, id } = answer.inputs.question
  if (partInMind === undefined) return null
  const stands = modelStands(partInMind)
  return (
    <form method="post" action={pathToPartInMind(id)} class="kept">
      <Field
        name="model"
        label={stands === 'exact' ? 'Its exact model' : 'Which exact model is it?'}
        hint="The seller’s whole line, or what is written on the part. A record of the shop is found by it, or its data sheet."
        typed={typed.has('model') ? typed : new Map([['model', [partInMind.words]]])}
        problems={problems}
      />
      <p class="actions">
        <button class="button" type="submit" name="do" value="model">
          This is its exact model
        </button>
        {stands !== 'not known' && (
          <button class="button quiet" type="submit" name="do" value="unknown">
            Nobody knows: ask for its figures
          </button>
        )}
      </p>
      {stands === 'not known' && <p class="hint">Nobody knows it so far, so its figures are asked for.</p>}
    </form>
  )
}

const NOTE = 'What its name tells for sure counts where a field is left empty; all else stays not known.'

const Body = ({ answer, asked, like, typed, problems }: Props) => {
  const { question } = answer.inputs
  const { part } = asked
  return (
    <article class="card form">
      <p class="line">
        <Tag tag={question.machineTag} />
        <span class="soft">“{question.words}”</span>
      </p>
      <h1>{part.name}</h1>
      <p class="soft">
        {capital(KIND_WORDS[part.kind], 'en')} that the shop has no record of. Its figures stay with this
        question.
      </p>
      <IsItThis questionId={question.id} like={like} />
      <ProblemSummary
        problems={problems}
        labels={(field) => (field === 'model' ? 'Its exact model' : partLabel(part.kind, field))}
      />
      <WhichModel {...{ answer, asked, like, typed, problems }} />
      <h2>Its figures</h2>
      <form method="post" action={pathToPartInMind(question.id)}>
        <FiguresFields part={part} typed={typed} problems={problems} note={NOTE} />
        <p class="actions">
          <button class="button" type="submit">
            Save and judge it
          </button>
          <a href={pathTo('questions', question.id)}>Back to the question</a>
        </p>
      </form>
    </article>
  )
}

/** The figures of a part in mind: typed here, kept with the question, judged at once on the question's page. */
export function partInMindRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  const find = async (c: Context): Promise<Result<Pick<Props, 'answer' | 'asked'>>> => {
    const id = param(c, 'id')
    const view = await uses.questionView(id)
    if (!view.ok) return view
    const { answer } = view.value
    const { asked } = answer
    return asked?.ask === 'can I put this in' ? ok({ answer, asked }) : failed(noPartInMind(id))
  }

  const show = async (c: Context, found: Omit<Props, 'like'>) => {
    const { partInMind } = found.answer.inputs.question
    const like = partInMind === undefined ? [] : recordsLike(partInMind, (await uses.known()).parts)
    const props = { ...found, like }
    const { shop, question } = props.answer.inputs
    const first = props.problems[0]
    const title = `${question.machineTag}: the part in mind`
    return page(
      c,
      { title, place: 'Questions', demo: options.demo, shopName: shop.name },
      <Body {...props} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/questions/:id/part', async (c) => {
    const found = await find(c)
    if (!found.ok) return stopped(c, web, found.problems)
    const { answer, asked } = found.value
    // A part that is on record has one page, where everybody else finds its figures too.
    if (asked.isKnown)
      return c.redirect(pathToPart(asked.part.id, pathTo('questions', answer.inputs.question.id)), 303)
    return show(c, { answer, asked, typed: typedFromPart(asked.part), problems: [] })
  })

  app.post('/questions/:id/part', async (c) => {
    const found = await find(c)
    if (!found.ok) return stopped(c, web, found.problems)
    const { answer, asked } = found.value
    const sent = typedOf(await readForm(c))
    const record = textOf(sent, 'record')
    if (record !== undefined) {
      const named = await uses.nameRecord(answer.inputs.question.id, record)
      if (!named.ok) return problemPage(c, web, named.problems, 'Questions')
      return c.redirect(`${pathTo('questions', named.value.id)}#asked`, 303)
    }
    const pressed = textOf(sent, 'do')
    if (pressed === 'model' || pressed === 'unknown') {
      const reader = fieldReader(sent, readingFor(answer.inputs.shop))
      const words = reader.need('model', line(PART_WORDS_MAX), 'Write the whole line that names the model.')
      const { id } = answer.inputs.question
      const said = pressed === 'unknown' ? 'not known' : words === undefined ? undefined : { words }
      if (said === undefined) return show(c, { answer, asked, typed: sent, problems: reader.problems })
      const saved = await uses.sayModel(id, said)
      if (!saved.ok) return problemPage(c, web, saved.problems, 'Questions')
      return c.redirect(pressed === 'model' ? pathToPartInMind(id) : `${pathTo('questions', id)}#asked`, 303)
    }
    const typed = new Map([...sent, ['name', [asked.part.name]]])
    const read = describedPart(asked.part, typed, readingFor(answer.inputs.shop))
    const saved = read.ok ? await uses.describePartInMind(answer.inputs.question.id, read.value) : read
    if (!saved.ok) return show(c, { answer, asked, typed, problems: saved.problems })
    return c.redirect(`${pathTo('questions', saved.value.id)}#asked`, 303)
  })
}
