import type { Context, Hono } from 'hono'
import { PART_KINDS, type PartKind } from '../core/part.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { type EnterableKey, SOURCE_CHOICES } from './claimForm.ts'
import { Field, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { figuresOf, pathTo, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { askFor } from './limits.tsx'
import { machineLabel, newMachineOf, PLACES_OF, WORTH_MEASURING } from './machineForm.ts'
import { readForm } from './readForm.ts'
import type { Known } from './webUses.ts'

type FormProps = { known: Known; figures: Figures; typed: Typed; problems: readonly Problem[] }

const partField = (kind: PartKind, n: number): string => `part.${kind}.${n}`

const Parts = ({ known, typed, problems }: FormProps) => (
  <fieldset>
    <legend>What is fitted</legend>
    <p class="hint">
      Pick a part the shop knows, or type a new name. A new part has no figures yet: what needs them says
      “can’t tell” until its table row is <a href="/import">imported</a>.
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
        label={`Who says so: ${label.toLowerCase()}`}
        choices={SOURCE_CHOICES}
        typed={typed}
        problems={problems}
      />
    </div>
  )
}

const MachineForm = (props: FormProps) => {
  const { typed, problems, figures } = props
  return (
    <form method="post" action="/machines/new" class="card form">
      <h1>Add a machine</h1>
      <ProblemSummary problems={problems} labels={(field) => machineLabel(field, figures)} />
      <div class="row">
        <Field
          name="tag"
          label="Tag"
          hint="Written on the case label; the next free one is filled in."
          typed={typed}
          problems={problems}
          required
          narrow
        />
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
      <Parts {...props} />
      <fieldset>
        <legend>What is worth measuring now</legend>
        <p class="hint">
          Hands are in the machine today and not in a year. Each of these decides questions later; what is
          left empty counts as not known, never as fine.
        </p>
        {WORTH_MEASURING.map((key) => (
          <LimitRow limitKey={key} {...props} />
        ))}
      </fieldset>
      <Field name="note" label="Note" rows={2} typed={typed} problems={problems} />
      <p class="actions">
        <button class="button" type="submit">
          Save the machine
        </button>
        <a href="/machines">Cancel</a>
      </p>
    </form>
  )
}

export function newMachineRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const [shop, known] = await Promise.all([uses.shop(), uses.known()])
    const proposed = new Map([['tag', [known.nextTag]]])
    const first = problems[0]
    return page(
      c,
      { title: 'Add a machine', place: 'Machines', demo: options.demo, shopName: shop.name },
      <MachineForm known={known} figures={figuresOf(shop)} typed={typed ?? proposed} problems={problems} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/machines/new', (c) => show(c, undefined, []))

  app.post('/machines/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const read = newMachineOf(typed, readingFor(await uses.shop()))
    const added = read.ok ? await uses.addMachine(read.value) : read
    if (!added.ok) return show(c, typed, added.problems)
    return c.redirect(pathTo('machines', added.value.tag), 303)
  })
}
