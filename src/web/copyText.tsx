import type { Language } from '../core/language.ts'
import { wordsIn } from '../words/tables.ts'

/** A text to copy: always there to be selected, and with a button where scripts run. */
export const CopyText = (props: {
  id: string
  label: string
  text: string
  rows: number
  language?: Language
}) => (
  <>
    <label class="unseen" for={props.id}>
      {props.label}
    </label>
    <textarea id={props.id} class="letter" rows={props.rows} readonly>
      {props.text}
    </textarea>
    <p class="actions">
      <button
        type="button"
        class="button quiet"
        data-copies={props.id}
        data-tells={`${props.id}-told`}
        data-says={wordsIn(props.language ?? 'en').form.copy.done}
        data-fails={wordsIn(props.language ?? 'en').form.copy.refused}
        hidden
      >
        {wordsIn(props.language ?? 'en').form.copy.button}
      </button>
      <span id={`${props.id}-told`} role="status"></span>
    </p>
  </>
)
