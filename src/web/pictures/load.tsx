import type { Finding } from '../../core/fit/finding.ts'
import type { Figures } from '../../words/figures.ts'
import { percentOf } from './scale.ts'

const numberIn = (finding: Finding, name: string): number | undefined => {
  const value = finding.values[name]
  return typeof value === 'number' ? value : undefined
}

/**
 * What the machine takes from 12 V after a change against what the shop counts on; drawn from the finding of the rule
 * `power.load`, and not at all when that could not compare the two.
 */
export const LoadBar = ({ findings, figures }: { findings: readonly Finding[]; figures: Figures }) => {
  const finding = findings.find((f) => f.rule === 'power.load')
  if (finding === undefined) return null
  const loadW = numberIn(finding, 'loadW')
  const usableW = numberIn(finding, 'usableW')
  if (loadW === undefined || usableW === undefined) return null
  const at = percentOf(0, Math.max(loadW, usableW) * 1.02)
  const watts = (value: number) => figures.named('W', value)
  return (
    <figure>
      <p class="bar-head">
        <span>
          takes <b class="num">{watts(loadW)}</b>
        </span>
        <span>
          of <b class="num">{watts(usableW)}</b> counted on
        </span>
      </p>
      <svg class="bars" height="30" width="100%" aria-hidden="true">
        <rect class="before" x="0" y="7" height="16" width={at(usableW)} />
        <rect class={loadW > usableW ? 'over' : 'after'} x="0" y="7" height="16" width={at(loadW)} />
        <line class="display" x1={at(usableW)} x2={at(usableW)} y1="0" y2="30" />
      </svg>
      <figcaption>
        Processor, card and the rest at full load on 12 V, against the share of the supply the shop counts on.
      </figcaption>
    </figure>
  )
}
