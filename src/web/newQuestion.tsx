import type { Context, Hono } from 'hono'
import { TARGET_FPS_DEFAULT, WISHES } from '../core/question.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { Known } from '../uses/views.ts'
import { Field, FirstSubmit, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { newQuestionOf, questionLabel, ROWS_MAX, rowCount } from './questionForm.ts'
import { readForm } from './readForm.ts'
import { settingText } from './settingText.ts'
import { isReady, Steps } from './steps.tsx'

type FormProps = {
  known: Known
  currency: string
  typed: Typed
  problems: readonly Problem[]
  oneMore: boolean
}

const Titles = ({ known, typed, problems, oneMore }: FormProps) => {
  const rows = rowCount(typed, oneMore)
  const titles = [['', 'choose a title'], ...known.titles.map((t) => [t.id, t.name] as const)] as const
  const settings = [
    ['', 'choose a setting'],
    ...known.settings.map((s) => [s.id, settingText(s)] as const),
  ] as const
  return (
    <fieldset id="f-wanted">
      <legend>Titles the owner plays</legend>
      <p class="hint">
        Only titles and settings that the shop has kept can be chosen, because a frame rate compares at one
        setting alone. A new one comes in with <a href="/import">the tables titles.csv and settings.csv</a>.
      </p>
      <input type="hidden" name="rows" value={rows} />
      {Array.from({ length: rows }, (_, n) => (
        <div class="row">
          <Select
            name={`wanted.${n}.title`}
            label={`Title ${n + 1}`}
            choices={titles}
            typed={typed}
            problems={problems}
          />
          <Select
            name={`wanted.${n}.setting`}
            label={`Setting of title ${n + 1}`}
            choices={settings}
            typed={typed}
            problems={problems}
          />
          <Field
            name={`wanted.${n}.weight`}
            label="Counts"
            typed={typed}
            problems={problems}
            inputmode="numeric"
            unit="times"
            narrow
          />
        </div>
      ))}
      {rows < ROWS_MAX && (
        <button class="button quiet" type="submit" name="do" value="more">
          Add a title
        </button>
      )}
    </fieldset>
  )
}

const Display = ({ typed, problems }: FormProps) => (
  <fieldset>
    <legend>Display</legend>
    <p class="hint">What the display cannot show is no gain. Left empty, nothing is capped.</p>
    <div class="row">
      <Field
        name="widthPx"
        label="Width"
        typed={typed}
        problems={problems}
        inputmode="numeric"
        unit="px"
        narrow
      />
      <Field
        name="heightPx"
        label="Height"
        typed={typed}
        problems={problems}
        inputmode="numeric"
        unit="px"
        narrow
      />
      <Field
        name="refreshHz"
        label="Refresh rate"
        typed={typed}
        problems={problems}
        inputmode="numeric"
        unit="Hz"
        narrow
      />
    </div>
  </fieldset>
)

const QuestionForm = (props: FormProps) => {
  const { known, currency, typed, problems } = props
  const wishes = new Set(typed.get('wishes') ?? [])
  return (
    <form method="post" action="/questions/new" class="card form">
      <FirstSubmit value="save" />
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
      <Field
        name="words"
        label="The owner’s own words"
        hint="They become the headline of the answer, as they stand."
        rows={3}
        typed={typed}
        problems={problems}
        required
      />
      <Titles {...props} />
      <div class="row">
        <Field
          name="targetFps"
          label="Wanted frame rate"
          hint={`Average, in each title; ${TARGET_FPS_DEFAULT} when left empty.`}
          typed={typed}
          problems={problems}
          inputmode="numeric"
          unit="FPS"
          narrow
        />
        <Field
          name="budget"
          label="Budget"
          hint="Left empty, every price is looked at."
          typed={typed}
          problems={problems}
          inputmode="decimal"
          unit={currency}
          narrow
        />
      </div>
      <Display {...props} />
      <fieldset id="f-wishes">
        <legend>Wishes</legend>
        {WISHES.map((wish) => (
          <label class="check">
            <input type="checkbox" name="wishes" value={wish} checked={wishes.has(wish)} /> {wish}
          </label>
        ))}
      </fieldset>
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
  const show = async (c: Context, typed: Typed, problems: readonly Problem[], oneMore = false) => {
    const [shop, known] = await Promise.all([uses.shop(), uses.known()])
    const frame = { title: 'Take down a question', place: 'Questions', demo: options.demo } as const
    const form = { known, currency: shop.policy.currency, typed, problems, oneMore }
    const first = problems[0]
    return page(
      c,
      { ...frame, shopName: shop.name },
      <QuestionForm {...form} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/questions/new', (c) => {
    const machine = c.req.query('machine')
    return show(c, new Map(machine === undefined ? [] : [['machineTag', [machine]]]), [])
  })

  app.post('/questions/new', async (c) => {
    const typed = typedOf(await readForm(c))
    if (typed.get('do')?.[0] === 'more') return show(c, typed, [], true)
    const read = newQuestionOf(typed, readingFor(await uses.shop()))
    const taken = read.ok ? await uses.takeQuestion(read.value) : read
    if (!taken.ok) return show(c, typed, taken.problems)
    return c.redirect(pathTo('questions', taken.value.id), 303)
  })
}
