/** A text to copy: always there to be selected, and with a button where scripts run. */
export const CopyText = (props: { id: string; label: string; text: string; rows: number }) => (
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
        hidden
      >
        Copy the text
      </button>
      <span id={`${props.id}-told`} role="status"></span>
    </p>
  </>
)
