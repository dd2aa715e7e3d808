import type { LimitKey, Limits } from '../core/limits/limit.ts'
import type { Problem } from '../problem.ts'
import type { Figures } from '../words/figures.ts'
import { sayLimit } from '../words/limits.ts'
import { type EnterableKey, enterableKey, SOURCE_CHOICES } from './claimForm.ts'
import { Field, Select, type Typed } from './form.tsx'
import { pathTo } from './frame.ts'
import { VerdictMark } from './mark.tsx'

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

const EnterForm = (props: {
  tag: string
  limitKey: EnterableKey
  label: string
  typed: Typed
  problems: readonly Problem[]
}) => {
  const { tag, limitKey, label, typed, problems } = props
  const open = typed.get('key')?.[0] === limitKey
  const own = open ? typed : new Map([[`source.${limitKey}`, ['measured']]])
  return (
    <details class="enter" open={open}>
      <summary>Enter {label.toLowerCase()}</summary>
      <form method="post" action={`${pathTo('machines', tag)}/limits`} class="form row">
        <input type="hidden" name="key" value={limitKey} />
        <Field name={`limit.${limitKey}`} label="Value" typed={own} problems={problems} narrow />
        <Select
          name={`source.${limitKey}`}
          label="Who says so"
          choices={SOURCE_CHOICES}
          typed={own}
          problems={problems}
        />
        <Field name={`note.${limitKey}`} label="Note" typed={own} problems={problems} />
        <p class="actions">
          <button class="button quiet" type="submit">
            Save this limit
          </button>
        </p>
      </form>
    </details>
  )
}

/**
 * A machine's limits, each with who says so; the unknown ones with how to find out. With `entering`, each that a
 * person can find out has a small form.
 */
export const LimitList = (props: {
  tag: string
  limits: Limits
  figures: Figures
  entering?: { typed: Typed; problems: readonly Problem[] } | undefined
}) => {
  const { tag, limits, figures, entering } = props
  const said = keysOf(limits).map((key) => ({
    key,
    known: limits[key].known,
    ...sayLimit(key, limits[key], figures),
  }))
  const known = said.filter((limit) => limit.known)
  const unknown = said.filter((limit) => !limit.known)
  const form = (key: LimitKey, label: string) => {
    const limitKey = enterableKey(key)
    if (entering === undefined || limitKey === undefined) return null
    return <EnterForm tag={tag} limitKey={limitKey} label={label} {...entering} />
  }
  return (
    <>
      <dl class="limits">
        {known.map(({ key, label, value, by, conflict }) => (
          <div id={`limit-${key}`}>
            <dt>{label}</dt>
            <dd>
              <span class="num">{value}</span> <small>{by}</small>
              {conflict !== undefined && (
                <p class="conflict">
                  <VerdictMark verdict="can't tell" says="two sources disagree" />
                  <small class="block">{conflict}</small>
                </p>
              )}
              {form(key, label)}
            </dd>
          </div>
        ))}
      </dl>
      {unknown.length > 0 && (
        <>
          <h3>Not known</h3>
          <dl class="limits">
            {unknown.map(({ key, label, value, findOut }) => (
              <div id={`limit-${key}`}>
                <dt>{label}</dt>
                <dd>
                  <VerdictMark verdict="can't tell" says={value} />
                  {findOut !== undefined && <small class="block">{findOut}</small>}
                  {form(key, label)}
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </>
  )
}
