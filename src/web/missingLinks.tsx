import { IN_MIND_ID } from '../core/asked/inMind.ts'
import { partsOf } from '../core/build.ts'
import type { Missing } from '../core/fit/finding.ts'
import { LIMIT_CATALOGUE } from '../core/limits/catalogue.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { Machine } from '../core/machine.ts'
import type { Part } from '../core/part.ts'
import type { Shown } from './answerContext.ts'
import { enterableKey } from './claimForm.ts'
import { idOf } from './form.tsx'
import { pathTo, pathToPart } from './frame.ts'
import { askFor, pathToEnter } from './limits.tsx'
import { pathToAsk } from './ownerLink.tsx'
import { figureLabel, figuresOfKind } from './partForm.ts'
import { pathToPartInMind } from './partInMind.tsx'

type MissingFigure = Exclude<Missing, { readonly limit: LimitKey }>

/** Where the missing figures of one part can be put in; the link goes to the first of them. */
const FiguresLink = ({ figures, shown }: { figures: readonly MissingFigure[]; shown: Shown }) => {
  const [first] = figures
  if (first === undefined) return null
  const { partId, partName, spec } = first
  const { machine, question } = shown.answer.inputs
  const { tag } = machine
  const questionId = question.id
  if (partId === 'policy') return <a href="/settings">Set it under Settings</a>
  if (partId === spec)
    return (
      <a class="ask-link" href={`${pathTo('machines', tag)}/correct`}>
        Say which {partName} is fitted
      </a>
    )
  return (
    <>
      <a
        href={`${partId === IN_MIND_ID ? pathToPartInMind(questionId) : pathToPart(partId, shown.path)}#${idOf(`figure.${spec}`)}`}
      >
        Enter its figures<span class="unseen">: {partName}</span>
      </a>{' '}
      <small>{figures.map((figure) => figureLabel(figure.spec)).join(', ')}</small>
    </>
  )
}

/** The ways to put in what is missing: one a limit, one a part. */
export const MissingLinks = ({ missing, shown }: { missing: readonly Missing[]; shown: Shown }) => {
  const figuresOf = new Map<string, MissingFigure[]>()
  for (const fact of missing)
    if (!('limit' in fact)) figuresOf.set(fact.partId, [...(figuresOf.get(fact.partId) ?? []), fact])
  const limits = missing.flatMap((fact) => ('limit' in fact ? [fact.limit] : []))
  return (
    <>
      {limits.map((limit) => (
        <>
          {' '}
          <LimitLink limit={limit} shown={shown} />
        </>
      ))}
      {[...figuresOf.values()].map((figures) => (
        <>
          {' '}
          <FiguresLink figures={figures} shown={shown} />
        </>
      ))}
    </>
  )
}

/** The figure of a fitted part that a limit comes from, where nobody enters the limit itself. */
function figureBehind(limit: LimitKey, { build }: Machine): { part: Part; field: string } | undefined {
  const field = LIMIT_CATALOGUE[limit].follows ?? limit
  const part = partsOf(build).find(({ kind }) => figuresOfKind(kind).some((f) => f.field === field))
  return part === undefined ? undefined : { part, field }
}

/** The way to put in a limit: its own form, or the figure that it comes from. */
export const LimitLink = ({ limit, shown }: { limit: LimitKey; shown: Shown }) => {
  const { machine } = shown.answer.inputs
  const { label } = askFor(limit, shown.figures)
  const behind = enterableKey(limit) === undefined ? figureBehind(limit, machine) : undefined
  if (behind !== undefined)
    return (
      <a href={`${pathToPart(behind.part.id, shown.path)}#${idOf(`figure.${behind.field}`)}`}>
        Enter its figures<span class="unseen">: {behind.part.name}</span>
      </a>
    )
  return (
    <>
      <a href={pathToEnter(machine.tag, limit)}>
        Enter it<span class="unseen">: {label}</span>
      </a>
      {enterableKey(limit) !== undefined && (
        <>
          {' '}
          <a href={pathToAsk(machine.tag, limit, shown.answer.inputs.question.id)}>
            Ask the owner<span class="unseen">: {label}</span>
          </a>
        </>
      )}
    </>
  )
}
