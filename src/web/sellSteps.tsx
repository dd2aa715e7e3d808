import { isLeavable, type StepStanding } from '../core/sale/steps.ts'
import type { SaleView } from '../uses/sellViews.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { fill, formOf } from '../words/say.ts'
import { VerdictMark } from './mark.tsx'
import { pathOfStep, pathToSale } from './sellPaths.ts'

const w = SELL_EN
const plurals = new Intl.PluralRules('en')

/** What was left out stays unknown, as what was not done yet. */
const MARK = { done: 'fits', 'left out': "can't tell", open: "can't tell" } as const

/** How much there is of what a step is about. */
function counted({ step }: StepStanding, { facts }: SaleView, figures: Figures): string | undefined {
  const n = { parts: facts.parts, notMeasured: facts.notMeasured, runs: facts.runs }
  const say = (what: keyof typeof n) =>
    n[what] === 0 ? undefined : fill(formOf(w.counts[what], n[what], plurals), { n: figures.number(n[what]) })
  if (step === 'parts' || step === 'runs') return say(step)
  return step === 'tape' ? say('notMeasured') : undefined
}

/** One small form with one button. */
const Press = (props: { action: string; says: string; about: string; fields?: Record<string, string> }) => (
  <form method="post" action={props.action}>
    {Object.entries(props.fields ?? {}).map(([name, value]) => (
      <input type="hidden" name={name} value={value} />
    ))}
    <button class="button quiet" type="submit">
      {props.says}
      <span class="unseen">: {props.about}</span>
    </button>
  </form>
)

const Step = ({ standing, view, figures }: { standing: StepStanding; view: SaleView; figures: Figures }) => {
  const { step, state } = standing
  const { machineTag: tag, handedAt } = view.sale
  const { name, does, act } = w.steps[step]
  const isOver = handedAt !== undefined
  const count = counted(standing, view, figures)
  const isNext = view.next === step
  return (
    <li id={step === 'handing over' ? 'hand-over' : `step-${step}`} class={isNext ? 'next' : undefined}>
      <VerdictMark verdict={MARK[state]} says={w.states[state]} />
      <div>
        <b>{name}</b>
        {count !== undefined && <span class="soft"> · {count}</span>}
        <small class="block">{state === 'left out' && isLeavable(step) ? w.without[step] : does}</small>
        {step === 'handing over' ? (
          <div class="actions">
            {isOver ? (
              <Press action={`${pathToSale(tag)}/not-handed-over`} says={w.notHanded} about={name} />
            ) : (
              <form method="post" action={`${pathToSale(tag)}/hand-over`}>
                <button class={isNext ? 'button' : 'button quiet'} type="submit">
                  {act}
                </button>
              </form>
            )}
          </div>
        ) : (
          !isOver && (
            <div class="actions">
              <a class={isNext ? 'button' : 'button quiet'} href={pathOfStep(tag, step)}>
                {act}
              </a>
              {step === 'sheet' && state !== 'done' && (
                <Press action={`${pathToSale(tag)}/sheet`} says={w.sheetRight} about={name} />
              )}
              {state !== 'done' && (
                <Press
                  action={`${pathToSale(tag)}/steps`}
                  fields={{ step, do: state === 'open' ? 'leave out' : 'take up' }}
                  says={state === 'open' ? w.leaveOut : w.takeUp}
                  about={name}
                />
              )}
            </div>
          )
        )}
      </div>
    </li>
  )
}

/** Every step of a sale with its state; what comes next has the strong button. */
export const SaleSteps = ({ view, figures }: { view: SaleView; figures: Figures }) => (
  <ol class="needs sale-steps">
    {view.standing.map((standing) => (
      <Step standing={standing} view={view} figures={figures} />
    ))}
  </ol>
)
