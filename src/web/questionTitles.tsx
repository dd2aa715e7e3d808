import type { TitlesTested } from '../uses/titlesTested.ts'
import { fill } from '../words/say.ts'
import { Field, FieldProblems, Select } from './form.tsx'
import { type FieldsProps, isFoldOpen, wordsOf } from './questionFields.tsx'
import { ROWS_MAX, rowCount } from './questionForm.ts'
import { settingText } from './settingText.ts'

/** Titles with their settings, a row each; for the shop also what fills them in and how much each counts. */
export const TitleFields = (props: FieldsProps) => {
  const { typed, problems, oneMore, by, language = 'en' } = props
  const w = wordsOf(props).fields
  const rows = rowCount(typed, oneMore)
  const titles = [['', w.chooseTitle], ...props.titles.map((t) => [t.id, t.name] as const)] as const
  const settings = [
    ['', w.chooseSetting],
    ...props.settings.map((s) => [s.id, settingText(s, language)] as const),
  ] as const
  return (
    <fieldset id="f-wanted">
      <legend>{w.titles}</legend>
      <p class="hint">
        {w.titlesHint}
        {by === 'shop' && (
          <>
            {' '}
            A new one is added under <a href="/titles">Titles and settings</a>.
          </>
        )}
      </p>
      <FieldProblems name="wanted" problems={problems} />
      <input type="hidden" name="rows" value={rows} />
      {Array.from({ length: rows }, (_, n) => (
        <div class="row">
          <Select
            name={`wanted.${n}.title`}
            label={fill(w.title, { n: String(n + 1) })}
            choices={titles}
            typed={typed}
            problems={problems}
          />
          <Select
            name={`wanted.${n}.setting`}
            label={fill(w.setting, { n: String(n + 1) })}
            choices={settings}
            typed={typed}
            problems={problems}
          />
        </div>
      ))}
      <p class="actions">
        {rows < ROWS_MAX && (
          <button class="button quiet" type="submit" name="do" value="more">
            {w.addTitle}
          </button>
        )}
        {props.canFill === true && (
          <button class="button quiet" type="submit" name="do" value="tested">
            Fill in the titles it was tested in
          </button>
        )}
      </p>
      {by === 'shop' && <Weights {...props} rows={rows} />}
    </fieldset>
  )
}

/** Folded: most owners play all their titles alike. */
const Weights = (props: FieldsProps & { rows: number }) => {
  const { typed, problems, rows } = props
  const names = Array.from({ length: rows }, (_, n) => `wanted.${n}.weight`)
  return (
    <details open={isFoldOpen(props, names)}>
      <summary>One title matters more than another</summary>
      <p class="hint">How often each counts in the gain over all of them; once where left empty.</p>
      <div class="row">
        {names.map((name, n) => (
          <Field
            name={name}
            label={`Title ${n + 1} counts`}
            typed={typed}
            problems={problems}
            inputmode="numeric"
            unit="times"
            narrow
          />
        ))}
      </div>
    </details>
  )
}

/** Whose titles were filled in, above the form. */
export const WhatWasFilled = ({ filled }: { filled: TitlesTested | undefined }) =>
  filled === undefined ? null : (
    <section class="kept" aria-label="What was filled in" role="status">
      <p>
        <b>
          {filled.wanted.length === 0
            ? 'No run is recorded yet, so no title was filled in.'
            : filled.of === 'machine'
              ? `The titles ${filled.tag} was tested in are filled in below.`
              : `${filled.tag} has no runs of its own. The titles the shop runs most often are filled in below.`}
        </b>{' '}
        {filled.wanted.length > 0 && 'Empty the rows that the owner does not play.'}
      </p>
    </section>
  )
