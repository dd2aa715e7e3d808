import { GO_TO_EN } from '../words/en/goTo.ts'
import type { Who } from './access/who.ts'
import { goalsFor } from './goTo.ts'

const W = GO_TO_EN.keys

/** Every key with what it does: the script looks here for where a key leads, so no second list can differ. */
export const KeyList = ({ asker }: { asker: Who | undefined }) => {
  const goals = goalsFor(asker).filter(({ key }) => key !== undefined)
  const rows = [
    ['/', W.find],
    ['?', W.help],
    ['.', W.next],
    [',', W.before],
    ['↓ ↑', `${W.in}: ${W.inDoes}`],
  ] as const
  return (
    <ul class="keys">
      {rows.map(([key, does]) => (
        <li>
          <kbd>{key}</kbd> {does}
        </li>
      ))}
      {goals.map(({ key, href, name }) => (
        <li>
          <kbd>{key?.toUpperCase()}</kbd>{' '}
          <a href={href} data-key={key}>
            {name}
          </a>
        </li>
      ))}
    </ul>
  )
}

/** The same list, which `?` opens over the page. Absent where the keys are switched off: without it the script has none. */
export const KeyHelp = ({ asker }: { asker: Who | undefined }) => (
  <dialog id="keys" aria-labelledby="keys-head">
    <h2 id="keys-head">{W.title}</h2>
    <KeyList asker={asker} />
    <p class="line">
      <button type="button" class="button quiet">
        {W.close}
      </button>
      <a href="/keys">{W.change}</a>
    </p>
  </dialog>
)
