import type { Answer, AnswerInputs } from '../../core/answer.ts'

/** What the ranking thread is asked, and what it answers. */
export type Asked = { readonly what: 'answer'; readonly inputs: AnswerInputs; readonly at: string }
export type Told = { readonly answer: Answer }
