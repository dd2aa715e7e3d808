import type { AnswerInputs } from '../core/answer.ts'
import { WHY_EN } from '../words/en/why.ts'

/** Said wherever an answer stands that had to do without the gain model. */
export const FitFailed = ({ inputs }: { inputs: AnswerInputs }) =>
  inputs.gainFailed === true ? (
    <p class="nothing" role="status">
      {WHY_EN.failed}
    </p>
  ) : null
