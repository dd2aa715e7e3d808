import type { Child } from 'hono/jsx'
import type { Ready } from '../uses/views.ts'
import { VerdictMark } from './mark.tsx'

const Step = ({ done, head, children }: { done: boolean; head: string; children: Child }) => (
  <li>
    <VerdictMark verdict={done ? 'fits' : "can't tell"} says={done ? 'done' : 'not yet'} />
    <div>
      <b>{head}</b>
      <small class="block">{children}</small>
    </div>
  </li>
)

/** Whether a question can be taken down, something on the shelf be judged for it, and the answer be signed. */
export const isReady = ({ shop, machines, titles, shelf }: Ready): boolean =>
  shop && machines && titles && shelf

/** What a ranked answer needs of this shop, each with the way in and a mark: done or not yet. */
export const Steps = ({ ready }: { ready: Ready }) => (
  <>
    <ol class="needs">
      <Step done={ready.shop} head="Who the shop is">
        <a href="/settings">Give its name, address, currency and time zone</a>, or import shop.csv. Mails are
        signed with it.
      </Step>
      <Step done={ready.machines} head="A machine">
        <a href="/machines/new">Add it by hand</a>, or import machines.csv, fitted.csv and the tables of its
        parts.
      </Step>
      <Step done={ready.titles} head="Titles and settings">
        What your customers play, and at which settings you measure: <a href="/titles">add them</a>, or{' '}
        <a href="/import">import titles.csv and settings.csv</a>. A question names them.
      </Step>
      <Step done={ready.shelf} head="A shelf">
        What you can sell today: <a href="/shelf/new">put an item on it</a>, or{' '}
        <a href="/import">import shelf.csv</a> with the tables of its parts. Without it nothing can be
        proposed. <a href="/settings/work">What your work costs</a> is counted into every price.
      </Step>
      <Step done={ready.runs} head="Runs">
        What you measured: <a href="/runs/new">note it at the bench</a>, or{' '}
        <a href="/import">import runs.csv</a>. Without runs the answer says what fits, and “no number” for the
        gain.
      </Step>
    </ol>
    <p class="soft">
      Each file and its columns stand under <a href="/import">Import</a>; in a terminal{' '}
      <code>npx stillfits tables</code> lists them too.
    </p>
  </>
)
