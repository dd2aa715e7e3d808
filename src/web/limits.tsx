import type { Child } from 'hono/jsx'
import type { LimitKey, Limits, Resolved } from '../core/limits/limit.ts'
import type { Problem } from '../problem.ts'
import type { Figures } from '../words/figures.ts'
import { isAskedFor, type LimitSaid, sayLimit } from '../words/limits.ts'
import { choicesOf, type EnterableKey, enterableKey, isHint, sourcesFor } from './claimForm.ts'
import { Field, Select, type Typed } from './form.tsx'
import { pathTo } from './frame.ts'
import { VerdictMark } from './mark.tsx'
import { pathToAsk } from './ownerLink.tsx'

const keysOf = (limits: Limits): LimitKey[] => Object.keys(limits) as LimitKey[]

/** Words for limit fields of a form, such as `limit.cardRoomMm`. */
export function limitLabel(field: string, figures: Figures): string | undefined {
  const parts = /^(limit|source|note)\.(\w+)$/.exec(field)
  const key = enterableKey(parts?.[2])
  if (key === undefined) return undefined
  const { label } = askFor(key, figures)
  return parts?.[1] === 'limit' ? label : `${label}, ${parts?.[1] === 'note' ? 'note' : 'who says so'}`
}

/** How to find a limit out, for a form that asks for it. */
export const askFor = (key: LimitKey, figures: Figures) =>
  sayLimit(key, { known: false, claims: [] }, figures)

/** The machine's page with the form of that limit open. */
export const pathToEnter = (tag: string, key: LimitKey): string =>
  `${pathTo('machines', tag)}?enter=${key}#limit-${key}`

const EnterForm = (props: {
  tag: string
  limitKey: EnterableKey
  label: string
  known: boolean
  asked: string | undefined
  typed: Typed
  problems: readonly Problem[]
}) => {
  const { tag, limitKey, label, known, asked, typed, problems } = props
  const sent = typed.get('key')?.[0] === limitKey
  const own = sent ? typed : new Map([[`source.${limitKey}`, ['measured']]])
  // Sixty forms would be most of the page: the one that is asked for stands open.
  if (!sent && asked !== limitKey)
    return (
      <a class="ask-link" href={pathToEnter(tag, limitKey)}>
        {known ? 'Enter another value' : 'Enter it'}
        <span class="unseen">: {label}</span>
      </a>
    )
  return (
    <details class="enter" open>
      <summary>
        {known ? 'Enter another value' : 'Enter it'}
        <span class="unseen">: {label}</span>
      </summary>
      <form method="post" action={`${pathTo('machines', tag)}/limits`} class="form row">
        <input type="hidden" name="key" value={limitKey} />
        <Field
          name={`limit.${limitKey}`}
          label="Value"
          typed={own}
          problems={problems}
          hint={choicesOf(limitKey)}
          narrow
        />
        <Select
          name={`source.${limitKey}`}
          label="Who says so"
          choices={sourcesFor(limitKey)}
          typed={own}
          problems={problems}
        />
        <Field name={`note.${limitKey}`} label="Note" typed={own} problems={problems} />
        <label class="check">
          <input type="checkbox" name={`pin.${limitKey}`} value="yes" checked={own.has(`pin.${limitKey}`)} />{' '}
          Count on this, whatever another source says
        </label>
        <p class="actions">
          <button class="button quiet" type="submit">
            Save this limit
          </button>
        </p>
      </form>
    </details>
  )
}

type Said = { key: LimitKey; known: boolean; hints: readonly string[] } & LimitSaid

/** What a stored claim says that is not counted, such as "64 GB read from the machine". */
function hintsOf(key: LimitKey, resolved: Resolved, figures: Figures): string[] {
  const claims = resolved.known ? resolved.conflicts : resolved.claims
  return claims.filter(isHint).map((claim) => {
    const { value, by } = sayLimit(
      key,
      { known: true, value: claim.value, by: claim, conflicts: [] },
      figures,
    )
    return `${value} ${by}`
  })
}

const saidOf = (limits: Limits, figures: Figures): Said[] =>
  keysOf(limits).map((key) => ({
    key,
    known: limits[key].known,
    hints: hintsOf(key, limits[key], figures),
    ...sayLimit(key, limits[key], figures),
  }))

const Hints = ({ hints }: { hints: readonly string[] }) => (
  <>
    {hints.map((hint) => (
      <small class="block">{hint}: a hint, not counted</small>
    ))}
  </>
)

type Enter = (key: LimitKey, label: string, known: boolean) => Child

const KnownLimits = ({ limits, enter }: { limits: readonly Said[]; enter: Enter }) => (
  <dl class="limits">
    {limits.map(({ key, label, value, by, conflict, hints }) => (
      <div id={`limit-${key}`}>
        <dt>{label}</dt>
        <dd>
          <span class="num">{value}</span> <small>{by}</small>
          {conflict !== undefined && (
            <p class="conflict">
              <VerdictMark verdict="can't tell" says="sources disagree" />
              <small class="block">{conflict}</small>
            </p>
          )}
          <Hints hints={hints} />
          {enter(key, label, true)}
        </dd>
      </div>
    ))}
  </dl>
)

const UnknownLimits = ({ limits, enter }: { limits: readonly Said[]; enter: Enter }) =>
  limits.length === 0 ? null : (
    <dl class="limits">
      {limits.map(({ key, label, value, findOut, hints }) => (
        <div id={`limit-${key}`}>
          <dt>{label}</dt>
          <dd>
            <VerdictMark verdict="can't tell" says={value} />
            {findOut !== undefined && <small class="block">{findOut}</small>}
            <Hints hints={hints} />
            {enter(key, label, false)}
          </dd>
        </div>
      ))}
    </dl>
  )

/** Not known, and missed; what only says something out of the ordinary is not missed. */
const isMissed = ({ key, known, hints }: Said): boolean => !known && (isAskedFor(key) || hints.length > 0)

/** How a machine stands today, and what is out of the ordinary: nobody is asked, and whoever looked can say so. */
const UnaskedLimits = (props: { limits: readonly Said[]; enter: Enter; open: boolean }) => {
  const { limits, enter, open } = props
  return limits.length === 0 ? null : (
    <details open={open}>
      <summary>Nobody has looked: {limits.length} states and specialities</summary>
      <dl class="limits">
        {limits.map(({ key, label, findOut }) => (
          <div id={`limit-${key}`}>
            <dt>{label}</dt>
            <dd>
              {findOut !== undefined && <small class="block">{findOut}</small>}
              {enter(key, label, false)}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  )
}

/** What most questions turn on; the other known limits wait in a fold unless their sources disagree. */
const HEADLINE: ReadonlySet<LimitKey> = new Set([
  'socket',
  'chipset',
  'firmware',
  'memoryType',
  'memorySlots',
  'memoryMaxGB',
  'slotPcieGen',
  'slotLanes',
  'cardRoomMm',
  'coolerRoomMm',
  'supply12VW',
  'supplyPlugs',
])

/** The limits beside an answer: the ones that matter most, what is not known, and the rest folded. */
export const LimitSummary = ({ limits, figures }: { limits: Limits; figures: Figures }) => {
  const said = saidOf(limits, figures)
  const known = said.filter((limit) => limit.known)
  const first = known.filter((limit) => HEADLINE.has(limit.key) || limit.conflict !== undefined)
  const rest = known.filter((limit) => !first.includes(limit))
  const unknown = said.filter(isMissed)
  return (
    <>
      <KnownLimits limits={first} enter={() => null} />
      {unknown.length > 0 && <h3>Not known</h3>}
      <UnknownLimits limits={unknown} enter={() => null} />
      {rest.length > 0 && (
        <details>
          <summary>
            {rest.length} more {rest.length === 1 ? 'limit' : 'limits'}
          </summary>
          <KnownLimits limits={rest} enter={() => null} />
        </details>
      )}
    </>
  )
}

/** All limits of a machine, what is not known first; each that a person can find out has a small form. */
export const LimitForms = (props: {
  tag: string
  limits: Limits
  figures: Figures
  /** The limit whose form stands open, because a link asked for it. */
  asked: string | undefined
  typed: Typed
  problems: readonly Problem[]
}) => {
  const { tag, limits, figures, asked, typed, problems } = props
  const said = saidOf(limits, figures)
  const unknown = said.filter(isMissed)
  const unasked = said.filter((limit) => !limit.known && !isMissed(limit))
  const isOpen = ({ key }: Said): boolean => key === asked || key === typed.get('key')?.[0]
  const enter: Enter = (key, label, known) => {
    const limitKey = enterableKey(key)
    if (limitKey === undefined) return null
    return (
      <>
        {' '}
        <EnterForm {...{ tag, limitKey, label, known, asked, typed, problems }} />
        {!known && ' '}
        {!known && (
          <a class="ask-link" href={pathToAsk(tag, limitKey)}>
            Ask the owner<span class="unseen">: {label}</span>
          </a>
        )}
      </>
    )
  }
  return (
    <>
      {unknown.length > 0 && <h3>Not known</h3>}
      <UnknownLimits limits={unknown} enter={enter} />
      <UnaskedLimits limits={unasked} enter={enter} open={unasked.some(isOpen)} />
      <h3>Known, and who says so</h3>
      <KnownLimits limits={said.filter((limit) => limit.known)} enter={enter} />
    </>
  )
}
