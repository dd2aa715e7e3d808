import { GO_TO_EN } from '../words/en/goTo.ts'
import type { Who } from './access/who.ts'
import { goalsFor } from './goTo.ts'

const W = GO_TO_EN.box

/** The one box of every page that leads to any other page or thing. Pages are offered while a name is typed. */
export const FindBox = ({
  asker,
  sought,
  isWrong,
}: {
  asker: Who | undefined
  /** What was looked for: on the page that shows what was found, where nothing is offered beside it. */
  sought?: string | undefined
  isWrong?: boolean | undefined
}) => (
  <search aria-label={W.region} class="go">
    <form method="get" action="/find">
      <label for="go" class="unseen">
        {W.label}
      </label>
      <input
        id="go"
        name="q"
        type="search"
        value={sought}
        placeholder={W.label}
        autocomplete="off"
        list={sought === undefined ? 'goals' : undefined}
        aria-keyshortcuts="/"
        aria-invalid={isWrong ? 'true' : undefined}
        aria-describedby={isWrong ? 'go-wrong' : undefined}
      />
      <button class="button quiet" type="submit">
        {W.go}
      </button>
    </form>
    {sought === undefined && (
      <datalist id="goals">
        {goalsFor(asker).map(({ name }) => (
          <option value={name} />
        ))}
      </datalist>
    )}
  </search>
)
