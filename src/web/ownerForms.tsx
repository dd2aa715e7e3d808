import { LIMIT_COLUMNS } from '../input/tables/machines.ts'
import type { Problem } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { wantedWords } from '../words/askOwner.ts'
import { LIMIT_WORDS } from '../words/en/limits.ts'
import { OWNER_EN } from '../words/en/ownerPage.ts'
import { PERSON_EN } from '../words/en/ownerPerson.ts'
import type { Figures } from '../words/figures.ts'
import { curly, fill } from '../words/say.ts'
import { type EnterableKey, enterableKey, wordsOf } from './claimForm.ts'
import { Field, FirstSubmit, ProblemSummary, Select, type Typed } from './form.tsx'
import { OnceKey } from './onceKey.tsx'
import { PhotoForm } from './ownerLink.tsx'
import {
  AsksChoice,
  ComplaintFields,
  DisplayFields,
  type FieldsProps,
  isFoldOpen,
  PartFields,
  TargetAndBudget,
  TitleFields,
  WishFields,
} from './questionFields.tsx'
import { questionLabel } from './questionForm.ts'
import { settingName, titleName } from './settingText.ts'

/** What every piece of an owner's page is handed. */
export type OwnerProps = {
  view: OwnerPageView
  token: string
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const w = OWNER_EN

const to = (token: string, rest: string): string => `/o/${token}/${rest}`

/** A few words are chosen from; a figure is typed. */
const LimitField = (props: { limit: EnterableKey } & Pick<OwnerProps, 'typed' | 'problems'>) => {
  const { limit, typed, problems } = props
  const shared = { name: `limit.${limit}`, label: curly(LIMIT_WORDS[limit].label), typed, problems }
  const words = wordsOf(limit)
  return words === undefined ? (
    <Field {...shared} hint={limit.endsWith('Mm') ? w.lengths : LIMIT_COLUMNS[limit].cell.allowed} />
  ) : (
    <Select {...shared} choices={[['', w.choose], ...words.map((word) => [word, word] as const)]} />
  )
}

/** One thing that is needed from the owner: what it is, how to find it out, its figure or a photo. */
export const RequestForm = ({
  request,
  token,
  typed,
  problems,
}: OwnerProps & { request: OwnerPageView['requests'][number] }) => {
  const { id, limitKey, photos } = request
  const { meaning, findOut } = LIMIT_WORDS[limitKey]
  const wanted = wantedWords(limitKey)
  const limit = enterableKey(limitKey)
  return (
    <section class="card" id={`request-${id}`}>
      <h2>
        {w.need} {wanted.what}
      </h2>
      {wanted.saysMeaning && <p>{curly(meaning)}</p>}
      <p>{curly(findOut)}</p>
      {limit !== undefined && (
        <form method="post" action={to(token, 'limits')} class="form">
          <OnceKey />
          <input type="hidden" name="request" value={id} />
          <LimitField limit={limit} typed={typed} problems={problems} />
          <p class="actions">
            <button class="button" type="submit">
              {w.sendValue}
            </button>
          </p>
        </form>
      )}
      {photos > 0 && (
        <p class="soft">{photos === 1 ? w.onePhoto : fill(w.photos, { count: String(photos) })}</p>
      )}
      {problems
        .filter((p) => p.field === `photo.${id}`)
        .map((p) => (
          <p class="wrong">{p.next}</p>
        ))}
      <PhotoForm action={to(token, 'photos')} id={id} hidden={['request', id]} label={w.photo} />
    </section>
  )
}

/** A limit, a photo and a report have forms of their own; what is wrong with them stands above the page. */
export const isOfQuestion = ({ field }: Problem): boolean =>
  !/^(?:limit\.|photo\.|report|job$|request$|consent$)/.test(field)

export const ownerLabel = (field: string): string | undefined => {
  const limit = enterableKey(/^limit\.(\w+)$/.exec(field)?.[1])
  // A photo's field carries the number of what it answers.
  if (field.startsWith('photo.')) return w.labels.photo
  return limit === undefined
    ? (w.labels[field] ?? PERSON_EN.labels[field] ?? questionLabel(field))
    : curly(LIMIT_WORDS[limit].label)
}

/** Ask about an upgrade. */
export const AskForm = (props: OwnerProps & { oneMore: boolean }) => {
  const { view, token, typed, problems, oneMore } = props
  const { titles, settings } = view
  const fields: FieldsProps = {
    ...{ titles, settings, typed, problems, oneMore, by: 'owner' },
    currency: view.shop.policy.currency,
  }
  const folds = ['widthPx', 'heightPx', 'refreshHz', 'planned.', 'wishes']
  return (
    <form method="post" action={to(token, 'questions')} class="card form asking" id="ask">
      <h2>{w.ask}</h2>
      <FirstSubmit value="send" />
      <OnceKey />
      <ProblemSummary problems={problems.filter(isOfQuestion)} labels={ownerLabel} />
      <Field
        name="words"
        label={w.words}
        hint={w.wordsHint}
        rows={3}
        typed={typed}
        problems={problems}
        required
      />
      <AsksChoice {...fields} />
      <PartFields {...fields} />
      <ComplaintFields {...fields} />
      <div class="of-titles">
        <TitleFields {...fields} />
        <TargetAndBudget {...fields} />
      </div>
      <details open={isFoldOpen(fields, folds)}>
        <summary>{w.more}</summary>
        <DisplayFields {...fields} />
        <WishFields {...fields} />
      </details>
      <p class="actions">
        <button class="button" type="submit" name="do" value="send">
          {w.send}
        </button>
      </p>
    </form>
  )
}

/** What the owner measured at home after a job. */
export const Report = ({ view, token, typed, problems }: OwnerProps) => {
  const [job] = view.jobs
  if (job === undefined) return null
  const choices = job.titles.map(
    ({ titleId, settingId }) =>
      [
        `${titleId}@${settingId}`,
        `${titleName(view.titles, titleId)}, ${settingName(view.settings, settingId)}`,
      ] as const,
  )
  return (
    <form method="post" action={to(token, 'fps')} class="card form">
      <h2>{w.report}</h2>
      <p>{w.reportSays}</p>
      <OnceKey />
      <input type="hidden" name="job" value={job.jobId} />
      <Select name="reportTitle" label={w.reportTitle} typed={typed} problems={problems} choices={choices} />
      <div class="row">
        <Field
          name="reportFps"
          label={w.reportFps}
          unit="FPS"
          inputmode="decimal"
          typed={typed}
          problems={problems}
          narrow
        />
        <Field
          name="reportLow1Fps"
          label={w.reportLow}
          unit="FPS"
          inputmode="decimal"
          typed={typed}
          problems={problems}
          narrow
        />
      </div>
      <p class="actions">
        <button class="button" type="submit">
          {w.sendReport}
        </button>
      </p>
    </form>
  )
}
