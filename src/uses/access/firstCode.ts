import { timingSafeEqual } from 'node:crypto'
import { codeHashOf, newCode } from './secrets.ts'

/** The code that makes the first account: printed once, and kept only as a hash while the process runs. */
export type FirstCode = {
  readonly isRight: (typed: string) => boolean
  /** It was used: from now on nothing is right. */
  readonly close: () => void
}

/** Makes the code. It is given out this once. */
export function openFirstCode(): { readonly code: string; readonly firstCode: FirstCode } {
  const code = newCode()
  let kept: Buffer | undefined = Buffer.from(codeHashOf(code))
  const firstCode: FirstCode = {
    isRight: (typed) => kept !== undefined && timingSafeEqual(kept, Buffer.from(codeHashOf(typed))),
    close: () => {
      kept = undefined
    },
  }
  return { code, firstCode }
}
