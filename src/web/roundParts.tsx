import type { Child } from 'hono/jsx'
import type { Problem } from '../problem.ts'
import type { RoundView } from '../uses/rounds/roundViews.ts'
import type { Figures } from '../words/figures.ts'
import type { Forms } from '../words/say.ts'
import { fill, formOf } from '../words/say.ts'
import type { Typed } from './form.tsx'
import { pathToRound } from './rounds.tsx'

/** A round as a page shows it, with what was typed into one of its forms. */
export type Shown = {
  readonly view: RoundView
  readonly figures: Figures
  readonly typed: Typed
  readonly problems: readonly Problem[]
}

const PLURAL = new Intl.PluralRules('en')

/** A line that counts, with its number as `n`. */
export const counted = (
  forms: Forms,
  n: number,
  figures: Figures,
  more: Readonly<Record<string, string>> = {},
) => fill(formOf(forms, n, PLURAL), { n: figures.number(n), ...more })

/** One press about the round. */
export const Step = ({
  view,
  step,
  says,
  quiet,
}: {
  view: RoundView
  step: string
  says: string
  quiet?: boolean
}) => (
  <form method="post" action={`${pathToRound(view.row.id)}/${step}`}>
    <button class={quiet === true ? 'button quiet' : 'button'} type="submit">
      {says}
    </button>
  </form>
)

/** A step that cannot be taken back: what it does is read before it can be pressed. */
export const Grave = (props: {
  view: RoundView
  step: string
  head: string
  says: string
  children: Child
}) => (
  <details class="fold">
    <summary>{props.head}</summary>
    {props.children}
    <Step view={props.view} step={props.step} says={props.says} quiet />
  </details>
)

export const Bar = ({ done, of, label }: { done: number; of: number; label: string }) => (
  <progress max={Math.max(1, of)} value={done} aria-label={label} />
)
