import type { Context } from 'hono'
import type { WorkLine } from '../uses/longWork/longWork.ts'
import type { Progress } from '../uses/longWork/messages.ts'
import { LONG_WORK_EN as W } from '../words/en/longWork.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'

const RELOAD_S = 2

/** What a kind of work says of itself. */
export type WorkWords = {
  readonly waiting: string
  readonly loading: string
  /** With `{done}` and `{of}`. */
  readonly progress: string
}

type Props = {
  readonly work: WorkLine
  readonly progress?: Progress | undefined
  /** The page of this piece of work; `/call-off` and `/forget` stand below it. */
  readonly path: string
  readonly words: WorkWords
  readonly figures: Figures
}

export const isOpen = ({ state }: WorkLine): boolean => state === 'waiting' || state === 'under way'

/** A page of work that is not done yet comes again by itself, with and without script. */
export const comesAgain = (c: Context, work: WorkLine): void => {
  if (isOpen(work)) c.header('Refresh', String(RELOAD_S))
}

/** How far a piece of work is, or that it ended without a result; nothing where it is done. */
export const WorkStanding = ({ work, progress, path, words, figures }: Props) => {
  const isCounting = progress !== undefined && progress.of > 0
  const { number } = figures
  if (work.state === 'called off') return <p class="card">{W.calledOff}</p>
  if (work.state === 'failed') return <p class="card wrong">{W.failed}</p>
  if (!isOpen(work)) return null
  return (
    <section class="card">
      <h2>{words.waiting}</h2>
      <p role="status">
        {isCounting
          ? fill(words.progress, { done: number(progress.done), of: number(progress.of) })
          : work.state === 'waiting'
            ? W.states.waiting
            : words.loading}
      </p>
      <progress max={Math.max(1, progress?.of ?? 1)} value={progress?.done ?? 0} aria-label={words.waiting} />
      <div class="line">
        <a href={path}>{W.look}</a>
        <form method="post" action={`${path}/call-off`}>
          <button class="button quiet" type="submit">
            {W.callOff}
          </button>
        </form>
      </div>
    </section>
  )
}

/** Takes a piece of work that has ended off its list. Opened first, so that one slip of a thumb takes nothing away. */
export const ForgetWork = ({ work, path }: Pick<Props, 'work' | 'path'>) =>
  isOpen(work) ? null : (
    <div class="actions unprinted">
      <details>
        <summary>{W.forget}</summary>
        <form method="post" action={`${path}/forget`}>
          <p>{W.forgetSure}</p>
          <button class="button quiet" type="submit">
            {W.forgetYes}
          </button>
        </form>
      </details>
    </div>
  )
