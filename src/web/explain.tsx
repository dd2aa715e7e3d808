import type { Child } from 'hono/jsx'
import type { Answer } from '../core/answer.ts'
import { type Change, partsOf } from '../core/build.ts'
import type { Finding } from '../core/fit/finding.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import { limitsBehind } from '../core/limitsBehind.ts'
import type { Part } from '../core/part.ts'
import { EXPLAIN_WORDS } from '../words/en/explain.ts'
import {
  type Explained,
  type ExplainedLimit,
  type ExplainedMissing,
  explainFinding,
} from '../words/explain.ts'
import { sayFinding } from '../words/findings.ts'
import type { Shown } from './answerContext.ts'
import { pathTo } from './frame.ts'
import { VerdictMark } from './mark.tsx'

/** The limit on the machine's own page; where nobody states it, with its form open. */
const limitPath = (tag: string, key: LimitKey, isKnown: boolean): string =>
  `${pathTo('machines', tag)}${isKnown ? '' : `?enter=${key}`}#limit-${key}`

const Limit = ({ limit, tag }: { limit: ExplainedLimit; tag: string }) => (
  <li>
    {limit.ofNewPart ? (
      <>
        {limit.label} <small>({EXPLAIN_WORDS.ofNewPart})</small>
      </>
    ) : (
      <a href={limitPath(tag, limit.key, limit.isKnown)}>{limit.label}</a>
    )}
    : <b class="num">{limit.value}</b>, {limit.by}
    {limit.conflict !== undefined && <small class="block">{limit.conflict}</small>}
    {limit.instead !== undefined && <small class="block">{limit.instead}</small>}
    {limit.findOut !== undefined && <small class="block">{limit.findOut}</small>}
  </li>
)

const Lacking = ({ missing }: { missing: ExplainedMissing }) => (
  <li>
    {missing.label}
    {missing.doubt !== undefined && <>: {missing.doubt}</>}
    {missing.findOut !== undefined && <small class="block">{missing.findOut}</small>}
  </li>
)

const Group = ({ head, children }: { head: string; children: Child }) => (
  <>
    <dt>{head}</dt>
    <dd>{children}</dd>
  </>
)

/** A list under its heading; nothing where there is nothing to list. */
const Listed = ({ head, items }: { head: string; items: readonly Child[] }) =>
  items.length === 0 ? null : (
    <Group head={head}>
      <ul>{items}</ul>
    </Group>
  )

const Opened = ({ explained, tag }: { explained: Explained; tag: string }) => {
  const { rule, says, isOnSheet, values, thresholds, limits, missing, ofPart, couldChange, source } =
    explained
  return (
    <dl class="explained">
      <Group head={EXPLAIN_WORDS.rule}>
        {says} {isOnSheet ? <a href={`/rules#rule-${rule}`}>{rule}</a> : <span class="num">{rule}</span>}
      </Group>
      <Listed
        head={EXPLAIN_WORDS.values}
        items={values.map(({ label, value }) => (
          <li>
            {label}: <b class="num">{value}</b>
          </li>
        ))}
      />
      <Listed head={EXPLAIN_WORDS.thresholds} items={thresholds.map((threshold) => <li>{threshold}</li>)} />
      {limits === undefined ? (
        <Group head={EXPLAIN_WORDS.limits}>{EXPLAIN_WORDS.notKept}</Group>
      ) : (
        <Listed
          head={EXPLAIN_WORDS.limits}
          items={limits.map((limit) => <Limit limit={limit} tag={tag} />)}
        />
      )}
      {ofPart !== undefined && <Group head={EXPLAIN_WORDS.figures}>{ofPart}</Group>}
      <Listed head={EXPLAIN_WORDS.missing} items={missing.map((fact) => <Lacking missing={fact} />)} />
      <Listed
        head={EXPLAIN_WORDS.couldChange}
        items={couldChange.map((fact) => <Lacking missing={fact} />)}
      />
      <Group head={EXPLAIN_WORDS.source}>
        {source.text} <small>({source.kind})</small>
      </Group>
    </dl>
  )
}

const partAbout = ({ inputs, asked }: Answer, { partId }: Finding): Part | undefined =>
  [
    ...inputs.parts,
    ...partsOf(inputs.machine.build),
    ...(asked?.ask === 'can I put this in' ? [asked.part] : []),
  ].find(({ id }) => id === partId)

/**
 * One finding: the owner's sentence, which opens to the builder's line, the numbers, the rule and who says so.
 *
 * @param changes the changes that the finding may be about, the likeliest first
 */
export const FindingDetails = (props: {
  finding: Finding
  changes: readonly Change[]
  shown: Shown
  marked?: boolean
}) => {
  const { finding, changes, shown, marked = true } = props
  const { answer, figures, lookup } = shown
  const said = sayFinding(finding, figures, lookup)
  const explained = explainFinding(
    finding,
    limitsBehind(answer, finding, changes),
    figures,
    partAbout(answer, finding),
  )
  return (
    <details class="explain">
      <summary>
        {marked && <VerdictMark verdict={finding.verdict} />} {said.owner} {said.next}
      </summary>
      <p class="num builder">{said.builder}</p>
      <Opened explained={explained} tag={answer.inputs.machine.tag} />
    </details>
  )
}
