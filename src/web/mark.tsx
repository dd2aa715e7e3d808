import type { Verdict } from '../core/verdict.ts'

/** Verdict marks: a peg and its hole. Told apart by shape alone; the word always stands beside. */
const SHAPES = {
  fits: 'fits',
  'fits slower': 'slow',
  'fits after work': 'work',
  "can't tell": 'tell',
  'does not fit': 'no',
} as const satisfies Record<Verdict, string>

const WORDS: Record<Verdict, string> = {
  fits: 'fits',
  'fits slower': 'fits slower',
  'fits after work': 'fits after work',
  "can't tell": 'can’t tell',
  'does not fit': 'does not fit',
}

const hole = <circle cx="9" cy="9" r="7" fill="none" stroke="currentColor" stroke-width="1.8" />

/** The five drawings, once a page; `VerdictMark` points at them. */
export const MarkSheet = () => (
  <svg class="marks" width="0" height="0" aria-hidden="true">
    <symbol id="mark-fits" viewBox="0 0 18 18">
      {hole}
      <circle cx="9" cy="9" r="4" fill="currentColor" />
    </symbol>
    <symbol id="mark-slow" viewBox="0 0 18 18">
      {hole}
      <path d="M5 9a4 4 0 0 0 8 0z" fill="currentColor" />
    </symbol>
    <symbol id="mark-work" viewBox="0 0 18 18">
      <path d="M3.2 8.2a6.2 6.2 0 1 0 11.6 0" fill="none" stroke="currentColor" stroke-width="1.8" />
      <circle cx="9" cy="4.2" r="3.2" fill="currentColor" />
    </symbol>
    <symbol id="mark-tell" viewBox="0 0 18 18">
      <circle
        cx="9"
        cy="9"
        r="7"
        fill="none"
        stroke="currentColor"
        stroke-width="1.8"
        stroke-dasharray="3 2.6"
      />
    </symbol>
    <symbol id="mark-no" viewBox="0 0 18 18">
      {hole}
      <path d="M4.6 4.6h8.8v8.8H4.6z" fill="none" stroke="currentColor" stroke-width="1.8" />
    </symbol>
  </svg>
)

/** Mark and words; `says` replaces the verdict's own word, as in "not known". */
export const VerdictMark = ({ verdict, says }: { verdict: Verdict; says?: string | undefined }) => (
  <span class={`verdict ${SHAPES[verdict]}`}>
    <svg width="17" height="17" aria-hidden="true">
      <use href={`#mark-${SHAPES[verdict]}`} />
    </svg>
    {says ?? WORDS[verdict]}
  </span>
)

/** The machine tag as it hangs on the case: a punched card. */
export const Tag = ({ tag, link = true }: { tag: string; link?: boolean }) =>
  link ? (
    <a class="tag" href={`/machines/${encodeURIComponent(tag)}`}>
      {tag}
    </a>
  ) : (
    <span class="tag">{tag}</span>
  )
