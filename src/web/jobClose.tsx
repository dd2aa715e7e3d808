import type { PartOut } from '../core/job/job.ts'
import { overall } from '../core/job/promise.ts'
import { languageFor } from '../core/language.ts'
import { CONDITIONS } from '../core/shop.ts'
import { CUSTOMER_EN } from '../words/en/customer.ts'
import { JOB_EN } from '../words/en/job.ts'
import { sayJobWhat, sayOutcomeOfPart, sayPrice, sayWarranty } from '../words/job.ts'
import { jobDoneText } from '../words/jobDone.ts'
import { fill } from '../words/say.ts'
import { Field, idOf, Select } from './form.tsx'
import { pathToShelfItem } from './frame.ts'
import { Act } from './jobActs.tsx'
import type { JobShown } from './jobShown.ts'
import { OnceKey } from './onceKey.tsx'

const Decided = ({ out, shown }: { out: PartOut; shown: JobShown }) => {
  const { figures, view, path } = shown
  const item = out.itemId === undefined ? null : <a href={pathToShelfItem(out.itemId)}>{out.itemId}</a>
  return (
    <>
      <p>
        {sayOutcomeOfPart(out.outcome)} {item}
        {out.creditMinor > 0 && `, ${figures.money(out.creditMinor)} for its owner`}
        <small class="block">
          {out.outcomeAt !== undefined && figures.date(out.outcomeAt)}
          {out.note !== undefined && `; ${out.note}`}
        </small>
      </p>
      {view.job.state === 'on the bench' && (
        <form method="post" action={`${path}/out/${out.id}`}>
          <button class="button quiet" type="submit" name="do" value="to test">
            Take this back<span class="unseen">: {shown.names.partName(out.partId)}</span>
          </button>
        </form>
      )}
    </>
  )
}

const Decide = ({ out: { id, partId }, shown }: { out: PartOut; shown: JobShown }) => {
  const { typed, problems, path, names } = shown
  const of = <span class="unseen">: {names.partName(partId)}</span>
  const shared = { typed, problems }
  return (
    <form method="post" action={`${path}/out/${id}`} class="act">
      <OnceKey />
      <div class="grid">
        <Select
          name={`condition.${id}`}
          label="Condition"
          choices={CONDITIONS.map((c) => [c, c])}
          {...shared}
        />
        <Field name={`price.${id}`} label="Price on the shelf" inputmode="decimal" narrow {...shared} />
        <Field
          name={`credit.${id}`}
          label="What the owner gets for it"
          inputmode="decimal"
          narrow
          {...shared}
        />
        <Field
          name={`warrantyMonths.${id}`}
          label="Warranty for its next owner"
          unit="months"
          inputmode="numeric"
          narrow
          {...shared}
        />
        <Field name={`warrantyEndsWith.${id}`} label="What ends that warranty" {...shared} />
        <Field name={`outNote.${id}`} label="Note" hint="How it was tested, for instance." {...shared} />
      </div>
      <p class="does">
        <button class="button" type="submit" name="do" value="on the shelf">
          Tested: onto the shelf{of}
        </button>
        <span class="soft">It becomes a shelf item of its own, with this condition and price.</span>
      </p>
      <p class="does">
        <button class="button quiet" type="submit" name="do" value="given back">
          Give it back{of}
        </button>
        <span class="soft">Its owner gets the part and nothing for it.</span>
      </p>
      <p class="does">
        <button class="button quiet" type="submit" name="do" value="scrapped">
          Scrap it{of}
        </button>
        <span class="soft">It goes to recycling; what the owner gets for it stays as typed above.</span>
      </p>
    </form>
  )
}

/** The parts that came out, each with what became of it. */
export const PartsOut = ({ shown }: { shown: JobShown }) => {
  const { outs } = shown.view
  if (outs.length === 0) return null
  return (
    <section id="out">
      <h2 id={idOf('parts')}>What came out</h2>
      <ul class="ruled">
        {outs.map((out) => (
          <li id={`out-${out.id}`}>
            <b>{shown.names.partName(out.partId)}</b>
            {out.outcome === 'to test' ? (
              <Decide out={out} shown={shown} />
            ) : (
              <Decided out={out} shown={shown} />
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}

const Settle = ({ shown }: { shown: JobShown }) => {
  const { view, figures, typed, problems, path } = shown
  const { job, proposalMinor } = view
  const differs = proposalMinor !== job.agreedMinor
  return (
    <section id="settle">
      <h2>Price</h2>
      <p>
        {job.settledMinor !== undefined && job.settledAt !== undefined ? (
          <b>
            Settled at {figures.money(job.settledMinor)} on {figures.date(job.settledAt)}.{' '}
          </b>
        ) : null}
        Agreed: {sayPrice(job.agreedMinor, figures)}.
        {differs && ` With what came out as it turned out, it is ${sayPrice(proposalMinor, figures)}.`}
        {job.depositMinor !== undefined && ` ${figures.money(job.depositMinor)} was left as a deposit.`}
        {job.fittedBy === 'shop' &&
          view.option.price.unpriced.length > 0 &&
          ` No price was named for: ${view.option.price.unpriced.join(', ')}.`}
      </p>
      <form method="post" action={`${path}/settle`} class="act">
        <OnceKey />
        <Field
          name="settledMinor"
          label="Price in all"
          hint="The deposit included; below zero where we pay."
          inputmode="decimal"
          typed={typed}
          problems={problems}
          narrow
        />
        <p class="does">
          <button class={job.settledAt === undefined ? 'button' : 'button quiet'} type="submit">
            {job.settledAt === undefined ? 'Settle the price' : 'Settle it anew'}
          </button>
          <span class="soft">The amount is kept with today’s date. A later one replaces it.</span>
        </p>
      </form>
    </section>
  )
}

const doneTextOf = ({ view, figures, names }: JobShown): string =>
  jobDoneText(
    {
      ...{ job: view.job, kept: view.kept, reports: view.reports, outs: view.outs },
      ...{ warranties: view.warranties, shop: view.answer.inputs.shop, customerName: view.customer?.name },
      targetFps: view.answer.inputs.question.targetFps,
      what: sayJobWhat(view.steps, names.partName),
      partName: names.partName,
      titleName: names.titleName,
    },
    figures,
  )

/** The same as a mail with bars, in the owner's language: it lies in the outbox until somebody approves it. */
export const MailIt = ({ path }: { path: string }) => (
  <form method="post" action={`${path}/outbox`}>
    <p class="does">
      <button class="button quiet" type="submit">
        {JOB_EN.mailIt}
      </button>
      <span class="soft">{JOB_EN.mailItSays}</span>
    </p>
  </form>
)

const Tell = ({ shown }: { shown: JobShown }) => {
  const { view, figures, path } = shown
  const { toldAt } = view.job
  return (
    <section id="tell">
      <h2>Tell the owner</h2>
      {view.job.settledAt === undefined && (
        <p class="soft">The price is not in it yet: it is put in once it is settled.</p>
      )}
      <label class="unseen" for="done-text">
        Text for the owner
      </label>
      <textarea id="done-text" class="letter" rows={14} readonly>
        {doneTextOf(shown)}
      </textarea>
      <p class="actions">
        <button type="button" class="button quiet" data-copies="done-text" data-tells="done-told" hidden>
          Copy the text
        </button>
        <span id="done-told" role="status"></span>
      </p>
      <MailIt path={path} />
      <form method="post" action={`${path}/told`} class="act">
        <OnceKey />
        <p class="does">
          {toldAt === undefined ? (
            <>
              <button class="button" type="submit" name="do" value="told">
                The owner was told
              </button>
              <span class="soft">Nothing is sent from here: send the text where you talk.</span>
            </>
          ) : (
            <>
              <button class="button quiet" type="submit" name="do" value="not told">
                Not told after all
              </button>
              <span class="soft">Told on {figures.date(toldAt)}.</span>
            </>
          )}
        </p>
      </form>
    </section>
  )
}

/** A miss is told with what was checked and what the owner can choose; both go into the mail. */
const Miss = ({ shown: { view, path, typed, problems } }: { shown: JobShown }) => {
  const w = JOB_EN.miss
  if (overall(view.kept) !== 'missed, worse') return null
  const language = languageFor(view.answer.inputs.shop.locale, view.customer?.language)
  const shared = { typed, problems }
  return (
    <section id="miss">
      <h2>{w.head}</h2>
      <p>{fill(w.says, { language: CUSTOMER_EN.languages[language] })}</p>
      <form method="post" action={`${path}/miss`} class="act">
        <Field name="missChecked" label={w.checked} hint={w.checkedHint} {...shared} />
        <Field name="missChoices" label={w.choices} hint={w.choicesHint} rows={5} {...shared} />
        <p class="does">
          <button class="button quiet" type="submit">
            {w.save}
          </button>
          <span class="soft">{view.job.missChoices === undefined ? w.notSaved : w.saved}</span>
        </p>
      </form>
    </section>
  )
}

/** Promised titles that nobody measured: said before the job is finished, because a promise that stays open proves nothing. */
const StillOpen = ({ shown: { view, names } }: { shown: JobShown }) => {
  const open = view.kept.filter(({ outcome }) => outcome === 'not measured')
  return open.length === 0 ? null : (
    <p>
      {fill(JOB_EN.promise.stillOpen, {
        titles: open.map(({ promised }) => names.titleName(promised.titleId)).join(', '),
      })}
    </p>
  )
}

/** Price, last words and the end of a job, once the parts are in. */
export const Closing = ({ shown }: { shown: JobShown }) => {
  const { job, warranties } = shown.view
  if (job.fittedAt === undefined) return null
  return (
    <>
      <Settle shown={shown} />
      {warranties.length > 0 && (
        <section>
          <h2>Warranty given with it</h2>
          <ul>
            {[
              ...new Set(
                warranties.map((w) => sayWarranty(w, shown.names.partName(w.partId), shown.figures)),
              ),
            ].map((text) => (
              <li>{text}</li>
            ))}
          </ul>
        </section>
      )}
      <Miss shown={shown} />
      <Tell shown={shown} />
      {job.state === 'on the bench' && (
        <section id="finish">
          <h2>The end</h2>
          <StillOpen shown={shown} />
          <Act shown={shown} step="finish" to="finish" />
        </section>
      )}
    </>
  )
}
