import type { Language } from '../core/language.ts'
import { PHOTO_TYPES } from '../core/photo.ts'
import { LIMIT_COLUMNS } from '../input/tables/machines.ts'
import type { Problem } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { wantedWords } from '../words/askOwner.ts'
import type { Figures } from '../words/figures.ts'
import { customerLabel } from '../words/limits.ts'
import { allowedIn } from '../words/ownerProblems.ts'
import { photoOf } from '../words/photoHint.ts'
import { curly, fill } from '../words/say.ts'
import { type Tables, wordsIn } from '../words/tables.ts'
import { type EnterableKey, enterableKey, wordsOf } from './claimForm.ts'
import { Field, FieldProblems, FirstSubmit, ProblemSummary, Select, type Typed } from './form.tsx'
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
  WishFields,
} from './questionFields.tsx'
import { ownerQuestionLabel } from './questionForm.ts'
import { TitleFields } from './questionTitles.tsx'
import { settingName, titleName } from './settingText.ts'

/** What every piece of an owner's page is handed. */
export type OwnerProps = {
  view: OwnerPageView
  /** Words in the language of the page. */
  words: Tables
  token: string
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const to = (token: string, rest: string): string => `/o/${token}/${rest}`

/** A few words are chosen from; a figure is typed. */
const LimitField = (
  props: { limit: EnterableKey } & Pick<OwnerProps, 'typed' | 'problems' | 'words' | 'view'>,
) => {
  const { limit, typed, problems, words, view } = props
  const { owner, figures } = words
  const label = curly(customerLabel(limit, view.language))
  const shared = { name: `limit.${limit}`, label, typed, problems }
  const choices = wordsOf(limit)
  if (choices === undefined) {
    const { allowed } = LIMIT_COLUMNS[limit].cell
    return (
      <Field {...shared} hint={limit.endsWith('Mm') ? owner.lengths : allowedIn(allowed, view.language)} />
    )
  }
  const texts: Readonly<Record<string, string | undefined>> = figures.texts
  return (
    <Select
      {...shared}
      choices={[['', owner.choose], ...choices.map((word) => [word, texts[word] ?? word] as const)]}
    />
  )
}

/** One thing that is needed from the owner: what it is, how to find it out, its figure or a photo. */
export const RequestForm = (props: OwnerProps & { request: OwnerPageView['requests'][number] }) => {
  const { request, token, problems, view, words } = props
  const w = words.owner
  const { id, limitKey, photos } = request
  const { meaning, findOut } = words.limits[limitKey]
  const wanted = wantedWords(limitKey, view.language)
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
          <LimitField {...props} limit={limit} />
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
      <PhotoForm
        action={to(token, 'photos')}
        id={id}
        hidden={['request', id]}
        label={fill(w.photo, { photo: photoOf(limitKey, words.askOwner.photos) })}
        language={view.language}
      />
    </section>
  )
}

/** A limit, a photo and a report have forms of their own; what is wrong with them stands above the page. */
export const isOfQuestion = ({ field }: Problem): boolean =>
  !/^(?:limit\.|photo\.|report|job$|request$|consent$|owner$|language$)/.test(field)

/** What a field is called in the language of the page, for the list of what is wrong. */
export const ownerLabel =
  (language: Language) =>
  (field: string): string | undefined => {
    const { owner, ownerPerson } = wordsIn(language)
    const limit = enterableKey(/^limit\.(\w+)$/.exec(field)?.[1])
    // A photo's field carries the number of what it answers.
    if (field.startsWith('photo.')) return owner.labels.photo
    return limit === undefined
      ? (owner.labels[field] ?? ownerPerson.labels[field] ?? ownerQuestionLabel(field, language))
      : curly(customerLabel(limit, language))
  }

/** Pictures beside the question. A browser keeps no chosen file, so after something was wrong they are chosen again. */
const AskPhotos = ({ words, problems, typed }: Pick<OwnerProps, 'words' | 'problems' | 'typed'>) => {
  const w = words.owner
  const isWrong = problems.some(({ field }) => field === 'photo')
  return (
    <div class={isWrong ? 'field bad' : 'field'}>
      <label for="f-photo">{w.askPhotos}</label>
      <p class="hint" id="f-photo-hint">
        {w.askPhotosHint}
      </p>
      <input
        id="f-photo"
        name="photo"
        type="file"
        multiple
        accept={PHOTO_TYPES.join(',')}
        aria-invalid={isWrong ? 'true' : undefined}
        aria-describedby={isWrong ? 'f-photo-hint f-photo-wrong' : 'f-photo-hint'}
      />
      {typed.has('hadPhotos') && <p class="hint">{w.photosAgain}</p>}
      <FieldProblems name="photo" problems={problems} />
    </div>
  )
}

/** Ask about an upgrade. */
export const AskForm = (props: OwnerProps & { oneMore: boolean }) => {
  const { view, words, token, typed, problems, oneMore } = props
  const { titles, settings, language } = view
  const w = words.owner
  const fields: FieldsProps = {
    ...{ titles, settings, typed, problems, oneMore, by: 'owner', language },
    currency: view.shop.policy.currency,
  }
  const folds = ['widthPx', 'heightPx', 'refreshHz', 'planned.', 'wishes', 'spaceGB']
  return (
    <form
      method="post"
      action={to(token, 'questions')}
      enctype="multipart/form-data"
      class="card form asking"
      id="ask"
    >
      <h2>{w.ask}</h2>
      <FirstSubmit value="send" />
      <OnceKey />
      <ProblemSummary
        problems={problems.filter(isOfQuestion)}
        labels={ownerLabel(language)}
        language={language}
      />
      <Field
        name="words"
        label={w.words}
        hint={w.wordsHint}
        rows={3}
        typed={typed}
        problems={problems}
        language={language}
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
      <AskPhotos {...props} />
      <p class="actions">
        <button class="button" type="submit" name="do" value="send">
          {w.send}
        </button>
      </p>
    </form>
  )
}

/** What the owner measured at home after a job. */
export const Report = ({ view, words, token, typed, problems }: OwnerProps) => {
  const w = words.owner
  const [job] = view.jobs
  if (job === undefined) return null
  const choices = job.titles.map(
    ({ titleId, settingId }) =>
      [
        `${titleId}@${settingId}`,
        `${titleName(view.titles, titleId)}, ${settingName(view.settings, settingId, view.language)}`,
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
