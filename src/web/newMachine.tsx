import type { Context, Hono } from 'hono'
import { PART_KINDS, type PartKind } from '../core/part.ts'
import { dayOf } from '../input/dates.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { NewMachine } from '../uses/addMachine.ts'
import type { Known, MachineView } from '../uses/views.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { type EnterableKey, sourcesFor } from './claimForm.ts'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { askFor } from './limits.tsx'
import { correctionOf, machineLabel, newMachineOf, PLACES_OF, WORTH_MEASURING } from './machineForm.ts'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'

type FormProps = {
  known: Known
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  /** Set when a machine that is there already is corrected. */
  tag?: string | undefined
  /** Nothing was typed about it: ask once whether it is meant. */
  askBack?: boolean
}

const partField = (kind: PartKind, n: number): string => `part.${kind}.${n}`

const Parts = ({ known, typed, problems, tag }: FormProps) => (
  <fieldset>
    <legend>What is fitted</legend>
    <p class="hint">
      Pick a part the shop knows, or type what you have: “H410M board”, “i5-10400F”, “2x8 GB DDR4-3200”. What
      the name tells for sure is read from it and shown to you; the rest stays unknown until you enter it or{' '}
      <a href="/import">import</a> the part’s row.{' '}
      <a href={tag === undefined ? '/reading' : `${pathTo('machines', tag)}/reading`}>
        The machine’s own table
      </a>{' '}
      tells board, processor and memory.
    </p>
    <div class="grid">
      {PART_KINDS.flatMap((kind) =>
        Array.from({ length: PLACES_OF[kind] }, (_, n) => (
          <Field
            name={partField(kind, n)}
            label={machineLabel(partField(kind, n)) ?? KIND_WORDS[kind]}
            list={`parts-${kind}`}
            typed={typed}
            problems={problems}
          />
        )),
      )}
    </div>
    {PART_KINDS.map((kind) => (
      <datalist id={`parts-${kind}`}>
        {known.parts
          .filter((p) => p.kind === kind)
          .map((p) => (
            <option value={p.name} />
          ))}
      </datalist>
    ))}
  </fieldset>
)

const LimitRow = ({ limitKey, figures, typed, problems }: FormProps & { limitKey: EnterableKey }) => {
  const { label, findOut } = askFor(limitKey, figures)
  return (
    <div class="row">
      <Field
        name={`limit.${limitKey}`}
        label={label}
        hint={findOut}
        typed={typed}
        problems={problems}
        narrow
      />
      <Select
        name={`source.${limitKey}`}
        label={`Who says so: ${label}`}
        choices={sourcesFor(limitKey)}
        typed={typed}
        problems={problems}
      />
    </div>
  )
}

const WorthMeasuring = (props: FormProps) => (
  <fieldset>
    <legend>What is worth measuring now</legend>
    <p class="hint">
      Hands are in the machine today and not in a year. Each of these decides questions later; what is left
      empty counts as not known, never as fine.
    </p>
    {WORTH_MEASURING.map((key) => (
      <LimitRow limitKey={key} {...props} />
    ))}
  </fieldset>
)

const Who = ({ typed, problems, tag }: FormProps) => (
  <>
    <div class="row">
      {tag === undefined && (
        <Field
          name="tag"
          label="Tag"
          hint="Written on the case label; the next free one is filled in."
          typed={typed}
          problems={problems}
          required
          narrow
        />
      )}
      <Field name="soldOn" label="Sold on" type="date" typed={typed} problems={problems} narrow />
    </div>
    <div class="grid">
      <Field name="ownerName" label="Owner’s name" typed={typed} problems={problems} />
      <Field
        name="ownerEmail"
        label="Owner’s address for mail"
        hint="Left empty, answers come as a text to copy into a chat."
        type="email"
        typed={typed}
        problems={problems}
      />
    </div>
  </>
)

const AskBack = () => (
  <section class="summary" role="alert">
    <input type="hidden" name="confirm" value="empty" />
    <h2>Nothing is known of it yet. Save it all the same?</h2>
    <p>No part and no owner was given. Nothing was saved so far; parts and owner can be added later.</p>
  </section>
)

const MachineForm = (props: FormProps) => {
  const { typed, problems, figures, tag, askBack } = props
  const isNew = tag === undefined
  return (
    <form
      method="post"
      action={isNew ? '/machines/new' : `${pathTo('machines', tag)}/correct`}
      class={isNew ? 'card form wide' : 'card form'}
    >
      <OnceKey />
      <h1>{isNew ? 'Add a machine' : `Correct what is written about ${tag}`}</h1>
      {!isNew && (
        <p class="soft">
          For slips only: a part that you take out here was never in the machine, and its history forgets it.
        </p>
      )}
      {askBack && <AskBack />}
      <ProblemSummary problems={problems} labels={(field) => machineLabel(field, figures)} />
      <div class={isNew ? 'halves' : undefined}>
        <div>
          <Who {...props} />
          <Parts {...props} />
        </div>
        {isNew && <WorthMeasuring {...props} />}
      </div>
      <Field name="note" label="Note" rows={2} typed={typed} problems={problems} />
      <p class="actions">
        <button class="button" type="submit">
          {askBack ? 'Save it all the same' : isNew ? 'Save the machine' : 'Save the corrections'}
        </button>
        <a href={isNew ? '/machines' : pathTo('machines', tag)}>Cancel</a>
      </p>
    </form>
  )
}

/** The form as the machine stands. */
const typedFrom = ({ history, owner, soldAt, note }: MachineView, timeZone: string): Typed => {
  const inside = history.filter((stay) => stay.removedAt === undefined).map((stay) => stay.part)
  const parts = PART_KINDS.flatMap((kind) =>
    inside.filter((p) => p.kind === kind).map((p, n) => [partField(kind, n), [p.name]] as const),
  )
  const facts = [
    ['ownerName', owner?.name],
    ['ownerEmail', owner?.email],
    ['soldOn', soldAt === undefined ? undefined : dayOf(soldAt, timeZone)],
    ['note', note],
  ] as const
  return new Map([
    ...parts,
    ...facts.flatMap(([name, text]) => (text === undefined ? [] : [[name, [text]] as const])),
  ])
}

/** A tag alone: more likely a slip of the finger than a machine. */
const saysNothing = ({ parts, claims, ownerName, note }: NewMachine): boolean =>
  parts.length === 0 && claims.length === 0 && ownerName === undefined && note === undefined

/** The machine's page with what was read from the names of its new parts, if there were any. */
const afterwards = (tag: string, newParts: readonly unknown[]): string =>
  newParts.length === 0 ? pathTo('machines', tag) : `${pathTo('machines', tag)}?read`

/** Parts and limits that a link fills in; nothing is saved by following it. */
const filledIn = (c: Context): [string, string[]][] =>
  Object.entries(c.req.queries()).filter(([name]) => /^(?:part|limit|source)\./.test(name))

export function newMachineRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Shown = Pick<FormProps, 'typed' | 'problems' | 'known' | 'tag' | 'askBack'>
  const show = async (c: Context, shown: Shown) => {
    const shop = await uses.shop()
    const { tag, problems, askBack } = shown
    const first = problems[0]
    const status = first === undefined ? (askBack ? STATUS_OF.missing : 200) : STATUS_OF[first.code]
    return page(
      c,
      {
        title: tag === undefined ? 'Add a machine' : `Correct ${tag}`,
        place: 'Machines',
        demo: options.demo,
        shopName: shop.name,
      },
      <MachineForm {...shown} figures={figuresOf(shop)} />,
      status,
    )
  }

  app.get('/machines/new', async (c) => {
    const known = await uses.known()
    const typed = new Map([['tag', [known.nextTag]], ...filledIn(c)])
    return show(c, { typed, problems: [], known })
  })

  app.post('/machines/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const read = newMachineOf(typed, readingFor(await uses.shop()))
    if (read.ok && saysNothing(read.value) && textOf(typed, 'confirm') !== 'empty')
      return show(c, { typed, problems: [], known: await uses.known(), askBack: true })
    const added = read.ok ? await uses.addMachine(read.value) : read
    if (!added.ok) return show(c, { typed, problems: added.problems, known: await uses.known() })
    return c.redirect(afterwards(added.value.tag, added.value.newParts), 303)
  })

  app.get('/machines/:tag/correct', async (c) => {
    const view = await uses.machine(param(c, 'tag'))
    if (!view.ok) return problemPage(c, web, view.problems, 'Machines')
    const { timeZone } = await uses.shop()
    const { tag } = view.value.machine
    return show(c, {
      typed: typedFrom(view.value, timeZone),
      problems: [],
      known: await uses.known(),
      tag,
    })
  })

  app.post('/machines/:tag/correct', async (c) => {
    const tag = param(c, 'tag')
    const typed = typedOf(await readForm(c))
    const read = correctionOf(typed, readingFor(await uses.shop()))
    const corrected = read.ok ? await uses.correctMachine(tag, read.value) : read
    if (corrected.ok) return c.redirect(afterwards(tag, corrected.value.newParts), 303)
    if (corrected.problems.some((p) => p.code === 'not found'))
      return problemPage(c, web, corrected.problems, 'Machines')
    return show(c, { typed, problems: corrected.problems, known: await uses.known(), tag })
  })
}
