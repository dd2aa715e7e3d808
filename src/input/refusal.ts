import type { ProblemCode } from '../problem.ts'

/** Why a text is not a value: becomes a Problem once it is known where the text stood. `next` is a whole sentence. */
export class Refusal {
  readonly code: ProblemCode
  readonly next: string
  constructor(code: ProblemCode, next: string) {
    this.code = code
    this.next = next
  }
}
