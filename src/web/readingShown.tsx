import type { LimitRow } from '../core/firmwareTable/limitRows.ts'
import type { PartRow } from '../core/firmwareTable/propose.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import type { Problem } from '../problem.ts'
import type { ReadingView } from '../uses/readTable.ts'
import { READING } from '../words/en/firmwareTable.ts'
import type { Figures } from '../words/figures.ts'
import {
  type RowSaid,
  sayLimitRow,
  sayPartRow,
  sayTable,
  sayTableChange,
  sayTableNote,
} from '../words/firmwareTable.ts'
import { Field, ProblemSummary, Select, type Typed } from './form.tsx'
import { pathTo } from './frame.ts'
import { VerdictMark } from './mark.tsx'

type Shown = { figures: Figures; typed: Typed; problems: readonly Problem[] }

/** What the table says, as it says it; folded, because the rows above say what follows. */
export const TableSaid = ({
  table,
  figures,
  open,
}: {
  table: FirmwareTable
  figures: Figures
  open?: boolean
}) => (
  <details open={open}>
    <summary>Everything that was read</summary>
    <p class="soft">As the table writes it. Boards are often wrong about slots, maxima and sockets.</p>
    <dl class="limits">
      {sayTable(table, figures).map(({ label, text }) => (
        <div>
          <dt>{label}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  </details>
)

export const TableNotes = ({
  notes,
  figures,
}: {
  notes: ReadingView['proposal']['notes']
  figures: Figures
}) =>
  notes.length === 0 ? null : (
    <ul>
      {notes.map((note) => (
        <li>{sayTableNote(note, figures)}</li>
      ))}
    </ul>
  )

/** A row's heading, its standing with a mark where a person has to look, and what is said beside it. */
const RowHead = ({ said, isNew }: { said: RowSaid; isNew: boolean }) => (
  <>
    <p class="line">
      <b>{said.label}</b>
      {said.read !== '' && <span class="num">{said.read}</span>}
      {isNew ? (
        <span class="soft">{said.standing}</span>
      ) : (
        <VerdictMark verdict="can't tell" says={said.standing} />
      )}
    </p>
    {said.lines.map((line) => (
      <small class="block">{line}</small>
    ))}
  </>
)

/** Rows that are only shown. */
export const SaidRows = ({ rows }: { rows: readonly RowSaid[] }) => (
  <dl class="limits">
    {rows.map((said) => (
      <div>
        <dt>{said.label}</dt>
        <dd>
          <span class="num">{said.read}</span>
          {said.lines.map((line) => (
            <small class="block">{line}</small>
          ))}
        </dd>
      </div>
    ))}
  </dl>
)

const LEAVE = ['', 'Leave it as it is written'] as const
const DECISIONS: Record<Exclude<PartRow['standing'], 'agrees'>, readonly (readonly [string, string])[]> = {
  new: [
    LEAVE,
    ['corrected', 'Write it down: it was in since the sale'],
    ['changed', 'Write it down: it came in later, today’s date'],
  ],
  added: [
    LEAVE,
    ['changed', 'It was added since: into the history, today’s date'],
    ['corrected', 'It was in all along: correct what is written'],
  ],
  gone: [
    LEAVE,
    ['changed', 'It was taken out since: into the history, today’s date'],
    ['corrected', 'It was never in: correct what is written'],
  ],
  differs: [
    LEAVE,
    ['changed', 'It was changed since: into the history, today’s date'],
    ['corrected', 'It was so all along: correct what is written'],
  ],
}

const PartChoice = ({ row, figures, typed, problems }: Shown & { row: PartRow }) => {
  const { id, kind, standing, read } = row
  if (standing === 'agrees') return null
  const given = typed.has(`name.${id}`) ? typed : new Map([...typed, [`name.${id}`, [read?.name ?? '']]])
  return (
    <fieldset>
      <legend class="unseen">{sayPartRow(row, figures).label}</legend>
      <RowHead said={sayPartRow(row, figures)} isNew={standing === 'new'} />
      <div class="row">
        <Select
          name={`does.${id}`}
          label="What to do"
          choices={DECISIONS[standing]}
          typed={typed}
          problems={problems}
        />
        {read !== undefined && (
          <Field
            name={`name.${id}`}
            label="As which part"
            hint={
              read.knownId === undefined
                ? 'New to the shop, named as the table does; or pick one of yours.'
                : 'A part the shop knows.'
            }
            list={`parts-${kind}`}
            typed={given}
            problems={problems}
          />
        )}
      </div>
    </fieldset>
  )
}

const LimitChoice = ({ row, figures, typed }: Shown & { row: LimitRow }) => {
  const said = sayLimitRow(row, figures)
  return (
    <div class="field">
      <RowHead said={said} isNew={row.standing === 'new'} />
      <label class="check">
        <input type="checkbox" name="limit" value={row.id} checked={typed.get('limit')?.includes(row.id)} />{' '}
        {row.counted ? 'Take it' : 'Keep it as a hint'}
        <span class="unseen">: {said.label}</span>
      </label>
    </div>
  )
}

const Earlier = ({ view, figures }: { view: ReadingView; figures: Figures }) =>
  view.earlier === undefined ? null : (
    <>
      <h2>Since the reading of {figures.date(view.earlier.at)}</h2>
      {view.earlier.changes.length === 0 ? (
        <p>{READING.nothingChanged}</p>
      ) : (
        <ul>
          {view.earlier.changes.map((change) => (
            <li>{sayTableChange(change, figures)}</li>
          ))}
        </ul>
      )}
    </>
  )

const fieldLabel = (field: string): string | undefined => {
  if (field === 'basis') return 'The machine'
  return /^(?:does|name)\.(board|processor|memory)/.exec(field)?.[1]
}

/** Proposals for a machine, of the table with that number where its owner sent it; each to be taken or left; what agrees is folded. */
export const ProposalForm = (
  props: Shown & { view: ReadingView; table: FirmwareTable; fromOwner?: string | undefined },
) => {
  const { view, table, figures, typed, problems, fromOwner } = props
  const { parts, limits, notes } = view.proposal
  const openParts = parts.filter(({ standing }) => standing !== 'agrees')
  const openLimits = limits.filter(({ standing }) => standing !== 'agrees')
  const counted = openLimits.filter((row) => row.counted)
  const hints = openLimits.filter((row) => !row.counted)
  const agreeing = [
    ...parts.filter(({ standing }) => standing === 'agrees').map((row) => sayPartRow(row, figures)),
    ...limits.filter(({ standing }) => standing === 'agrees').map((row) => sayLimitRow(row, figures)),
  ]
  const isPlain = [...openParts, ...counted].some(({ standing }) => standing === 'new')
  return (
    <>
      <ProblemSummary problems={problems} labels={fieldLabel} />
      <TableNotes notes={notes} figures={figures} />
      <Earlier view={view} figures={figures} />
      <form
        method="post"
        action={`${pathTo('machines', view.tag)}/reading/accept`}
        enctype="multipart/form-data"
      >
        <input type="hidden" name="table" value={JSON.stringify(table)} />
        <input type="hidden" name="basis" value={view.basis} />
        {fromOwner !== undefined && <input type="hidden" name="fromOwner" value={fromOwner} />}
        {(['board', 'processor', 'memory'] as const).map((kind) => (
          <datalist id={`parts-${kind}`}>
            {view.known
              .filter((p) => p.kind === kind)
              .map((p) => (
                <option value={p.name} />
              ))}
          </datalist>
        ))}
        <h2 id="f-basis">Parts</h2>
        {openParts.length === 0 ? (
          <p>Nothing differs from what is written down.</p>
        ) : (
          openParts.map((row) => <PartChoice {...props} row={row} />)
        )}
        <h2>Limits</h2>
        {counted.length === 0 ? (
          <p>Nothing differs from what is known.</p>
        ) : (
          counted.map((row) => <LimitChoice {...props} row={row} />)
        )}
        {hints.length > 0 && (
          <details open={typed.has('limit')}>
            <summary>
              {hints.length} {hints.length === 1 ? 'hint that is' : 'hints that are'} never counted
            </summary>
            {hints.map((row) => (
              <LimitChoice {...props} row={row} />
            ))}
          </details>
        )}
        {agreeing.length > 0 && (
          <details>
            <summary>
              {agreeing.length} {agreeing.length === 1 ? 'thing agrees' : 'things agree'}
            </summary>
            <SaidRows rows={agreeing} />
          </details>
        )}
        <p class="actions">
          <button class="button" type="submit" name="do" value="chosen">
            Take what I chose
          </button>
          {isPlain && (
            <button class="button quiet" type="submit" name="do" value="plain">
              Take all that nothing speaks against
            </button>
          )}
          <a href={pathTo('machines', view.tag)}>Leave everything</a>
        </p>
        <p class="soft">
          The reading itself is kept as well, so that the next one shows what changed. It has no serial number
          in it.
        </p>
      </form>
      <TableSaid table={table} figures={figures} />
    </>
  )
}
