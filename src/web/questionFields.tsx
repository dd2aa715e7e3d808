import type { Setting, Title } from '../core/gain/run.ts'
import type { Language } from '../core/language.ts'
import { PART_KINDS, type PartKind } from '../core/part.ts'
import { ASKS, COMPLAINTS, TARGET_FPS_DEFAULT, WISHES } from '../core/question.ts'
import type { Problem } from '../problem.ts'
import { ASK_WORDS, QUESTION_WORDS, WISH_WORDS } from '../words/en/questionForm.ts'
import { KIND_WORDS } from '../words/options.ts'
import { capital, fill } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'
import { sayFigure } from './figureSaid.ts'
import { Field, FieldProblems, Select, type Typed, textOf } from './form.tsx'
import { figuresOfKind } from './partForm.ts'
import { IN_MIND_FIGURES } from './questionForm.ts'

/** What the fields of a question need, on the shop's form and on the owner's page alike. */
export type FieldsProps = {
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly currency: string
  readonly typed: Typed
  readonly problems: readonly Problem[]
  readonly oneMore: boolean
  /** Titles can be filled in from the machine's runs. */
  readonly canFill?: boolean | undefined
  /** Whose words the labels use. */
  readonly by: 'shop' | 'owner'
  /** Of an owner's words; the shop's are English. */
  readonly language?: Language | undefined
}

/** The words of the form for whom it is drawn. */
export const wordsOf = ({ by, language = 'en' }: Pick<FieldsProps, 'by' | 'language'>) =>
  by === 'shop'
    ? { fields: QUESTION_WORDS.shop, asks: ASK_WORDS.shop, wishes: WISH_WORDS }
    : wordsIn(language).ownerForm

/** What a kind of part is called; for an owner in their language. */
const kindOf = (kind: PartKind, { by, language = 'en' }: Pick<FieldsProps, 'by' | 'language'>): string =>
  capital(
    by === 'shop' || language === 'en' ? KIND_WORDS[kind] : wordsIn(language).answer.kinds[kind],
    language,
  )

/** What is asked, as buttons of one choice; what belongs to the others is folded away by the style sheet. */
export const AsksChoice = (props: FieldsProps) => {
  const { typed, problems } = props
  const w = wordsOf(props)
  const chosen = textOf(typed, 'asks') ?? ASKS[0]
  return (
    <fieldset id="f-asks" class="choice">
      <legend>{w.fields.asks}</legend>
      {ASKS.map((ask) => (
        <label class="check">
          <input type="radio" name="asks" value={ask} checked={ask === chosen} /> {w.asks[ask]}
        </label>
      ))}
      <FieldProblems name="asks" problems={problems} />
    </fieldset>
  )
}

const FiguresInMind = ({ kind, typed, problems, language = 'en' }: FieldsProps & { kind: PartKind }) => {
  const wanted: readonly string[] = IN_MIND_FIGURES[kind] ?? []
  const figures = figuresOfKind(kind).filter(({ field }) => wanted.includes(field))
  return figures.length === 0 ? null : (
    <div class={`row figures figures-${kind}`}>
      {figures.map((figure) => (
        <Field
          name={`inMind.${kind}.${figure.field}`}
          {...sayFigure(figure, language)}
          typed={typed}
          problems={problems}
          narrow
        />
      ))}
    </div>
  )
}

/** The part in mind: kind, words, price; its figures wait in a fold, those of the chosen kind alone. */
export const PartFields = (props: FieldsProps) => {
  const { typed, problems, currency } = props
  const w = wordsOf(props).fields
  const hasFigures = [...typed.keys()].some(
    (name) => name.startsWith('inMind.') && textOf(typed, name) !== undefined,
  )
  return (
    <fieldset id="f-partInMind" class="of-part">
      <legend>{w.part}</legend>
      <div class="row">
        <Select
          name="partKind"
          label={w.partKind}
          typed={typed.has('partKind') ? typed : new Map([['partKind', ['card']]])}
          problems={problems}
          choices={PART_KINDS.map((kind) => [kind, kindOf(kind, props)] as const)}
        />
        <Field
          name="partWords"
          label={w.partWords}
          hint={w.partWordsHint}
          typed={typed}
          problems={problems}
        />
        <Field
          name="partPrice"
          label={w.partPrice}
          typed={typed}
          problems={problems}
          inputmode="decimal"
          unit={currency}
          narrow
        />
      </div>
      <FieldProblems name="partInMind" problems={problems} />
      <details open={hasFigures || problems.some((p) => p.field.startsWith('inMind.'))}>
        <summary>{w.partFigures}</summary>
        <p class="hint">{w.partFiguresHint}</p>
        {PART_KINDS.map((kind) => (
          <FiguresInMind {...props} kind={kind} />
        ))}
      </details>
    </fieldset>
  )
}

export const ComplaintFields = (props: FieldsProps) => {
  const { typed, problems } = props
  const w = wordsOf(props).fields
  const chosen = textOf(typed, 'complaint')
  return (
    <fieldset id="f-complaint" class="of-complaint choice">
      <legend>{w.complaint}</legend>
      {COMPLAINTS.map((complaint) => (
        <label class="check">
          <input type="radio" name="complaint" value={complaint} checked={complaint === chosen} />{' '}
          {w.complaints[complaint]}
        </label>
      ))}
      <FieldProblems name="complaint" problems={problems} />
    </fieldset>
  )
}

export const TargetAndBudget = (props: FieldsProps) => {
  const { typed, problems, currency } = props
  const w = wordsOf(props).fields
  return (
    <div class="row">
      <Field
        name="targetFps"
        label={w.target}
        hint={fill(w.targetHint, { fps: String(TARGET_FPS_DEFAULT) })}
        typed={typed}
        problems={problems}
        inputmode="numeric"
        unit="FPS"
        narrow
      />
      <Field
        name="budget"
        label={w.budget}
        hint={w.budgetHint}
        typed={typed}
        problems={problems}
        inputmode="decimal"
        unit={currency}
        narrow
      />
    </div>
  )
}

const DisplayRow = (props: FieldsProps & { prefix: '' | 'planned.'; legend: string; hint: string }) => {
  const { prefix, legend, hint, typed, problems } = props
  const w = wordsOf(props).fields
  const field = (name: string, label: string, unit: string) => (
    <Field
      name={`${prefix}${name}`}
      label={label}
      typed={typed}
      problems={problems}
      inputmode="numeric"
      unit={unit}
      narrow
    />
  )
  return (
    <fieldset>
      <legend>{legend}</legend>
      <p class="hint">{hint}</p>
      <div class="row">
        {field('widthPx', w.width, 'px')}
        {field('heightPx', w.height, 'px')}
        {field('refreshHz', w.refresh, 'Hz')}
      </div>
    </fieldset>
  )
}

export const DisplayFields = (props: FieldsProps) => {
  const w = wordsOf(props).fields
  return (
    <>
      <DisplayRow {...props} prefix="" legend={w.display} hint={w.displayHint} />
      <DisplayRow {...props} prefix="planned." legend={w.planned} hint={w.plannedHint} />
    </>
  )
}

export const WishFields = (props: FieldsProps) => {
  const { typed, problems } = props
  const w = wordsOf(props)
  const wishes = new Set(typed.get('wishes') ?? [])
  return (
    <fieldset id="f-wishes">
      <legend>{w.fields.wishes}</legend>
      {WISHES.map((wish) => (
        <label class="check">
          <input type="checkbox" name="wishes" value={wish} checked={wishes.has(wish)} /> {w.wishes[wish]}
        </label>
      ))}
      <Field
        name="spaceGB"
        label={w.fields.space}
        hint={w.fields.spaceHint}
        typed={typed}
        problems={problems}
        inputmode="decimal"
        unit="GB"
        narrow
      />
    </fieldset>
  )
}

/** Fields that can wait; open where something stands in them or is wrong with them. */
export const isFoldOpen = ({ typed, problems }: FieldsProps, names: readonly string[]): boolean =>
  names.some(
    (name) =>
      problems.some((p) => p.field.startsWith(name)) ||
      [...typed.keys()].some((key) => key.startsWith(name) && textOf(typed, key) !== undefined),
  )
