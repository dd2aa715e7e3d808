import type { Answer, Customer, Shop } from '../core/answer.ts'
import type { Run, Setting, Title } from '../core/gain/run.ts'
import type { Claim, Limits } from '../core/limits/limit.ts'
import type { Machine } from '../core/machine.ts'
import type { Part, PartKind } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import type { ShelfItem } from '../core/shop.ts'
import type { Result } from '../problem.ts'
import type { LetterEdits } from '../words/answer/letter.ts'

/**
 * What the pages ask of the rest of the program, and nothing more; main joins it to store and clock. A `Problem`
 * whose `field` is the name of a form field is shown beside that field, any other at the top of the form.
 */
export type WebUses = {
  /** The shop's own particulars; before any were given, neutral ones, so that every page can be drawn. */
  shop(): Promise<Shop>
  questions(): Promise<QuestionsView>
  /** What forms offer to pick from. */
  known(): Promise<Known>
  /** Fields of its problems: `machineTag words wanted targetFps budget display wishes`. */
  takeQuestion(question: NewQuestion): Promise<Result<{ readonly id: string }>>
  /** Computes the answer as things stand now and stores nothing. */
  questionView(questionId: string): Promise<Result<QuestionView>>
  storedAnswer(answerId: string): Promise<Result<StoredAnswer>>
  /** Stores the answer as it stands now and a message about it. `optionId` absent: the ranking's own pick. */
  prepareMessage(
    questionId: string,
    optionId: string | undefined,
  ): Promise<Result<{ readonly messageId: string }>>
  message(messageId: string): Promise<Result<MessageView>>
  /** Fields of its problems: `subject opening closing pickId`. */
  saveMessage(messageId: string, edits: LetterEdits): Promise<Result<{ readonly messageId: string }>>
  /** The mail as an RFC 5322 file; a problem when the customer has no address. */
  messageEml(messageId: string): Promise<Result<{ readonly fileName: string; readonly bytes: Uint8Array }>>
  machines(): Promise<readonly MachineLine[]>
  machine(tag: string): Promise<Result<MachineView>>
  /** Fields of its problems: `tag ownerName ownerEmail soldOn`, `part.<kind>.<n>`, `limit.<key>`. */
  addMachine(machine: NewMachine): Promise<Result<{ readonly tag: string }>>
  /** Adds one claim, dated now. Fields of its problems: `key value source note`. */
  recordLimit(tag: string, claim: Claim): Promise<Result<{ readonly tag: string }>>
  shelf(): Promise<ShelfView>
  runs(): Promise<RunsView>
  importFiles(files: readonly UploadedFile[]): Promise<Result<ImportReport>>
}

export type QuestionLine = {
  readonly question: Question
  readonly owner?: Customer | undefined
  /** Set once an answer was stored: when, and which. */
  readonly answeredAt?: string | undefined
  readonly answerId?: string | undefined
}

export type QuestionsView = {
  readonly waiting: readonly QuestionLine[]
  readonly answered: readonly QuestionLine[]
  readonly titles: readonly Title[]
  /** Nothing at all is known yet: no machine, no part, no question. */
  readonly emptyShop: boolean
  /** For "asked 2 days ago"; ISO 8601 UTC. */
  readonly now: string
}

export type Known = {
  readonly machines: readonly { readonly tag: string; readonly ownerName?: string | undefined }[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  readonly parts: readonly Part[]
  /** The next free machine tag. */
  readonly nextTag: string
}

export type NewQuestion = Omit<Question, 'id' | 'askedAt'>

export type EarlierAnswer = {
  readonly answerId: string
  readonly at: string
  readonly messageId?: string | undefined
}

export type QuestionView = {
  readonly answer: Answer
  /** Latest first. */
  readonly earlier: readonly EarlierAnswer[]
}

export type StoredAnswer = { readonly answer: Answer; readonly messageId?: string | undefined }

export type MessageView = {
  readonly id: string
  readonly answerId: string
  readonly answer: Answer
  /** As saved; absent = as proposed. */
  readonly edits: LetterEdits
  /** The subject as it stands in the mail. */
  readonly subject: string
  readonly html: string
  readonly text: string
  readonly chatText: string
}

export type MachineLine = {
  readonly tag: string
  readonly owner?: Customer | undefined
  readonly soldAt?: string | undefined
  readonly parts: readonly Part[]
}

export type FittedPart = {
  readonly part: Part
  readonly fittedAt?: string | undefined
  readonly removedAt?: string | undefined
}

export type MachineView = {
  readonly machine: Machine
  readonly limits: Limits
  readonly owner?: Customer | undefined
  readonly soldAt?: string | undefined
  readonly note?: string | undefined
  /** Fitted now first, then what came out. */
  readonly fitted: readonly FittedPart[]
  readonly runs: readonly Run[]
  readonly questions: readonly QuestionLine[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

export type NewMachine = {
  readonly tag: string
  readonly ownerName?: string | undefined
  readonly ownerEmail?: string | undefined
  /** `YYYY-MM-DD` in the shop's time zone. */
  readonly soldOn?: string | undefined
  readonly note?: string | undefined
  /** `name` is a known part's name or id; any other text makes a new part of that kind with no figures. */
  readonly parts: readonly { readonly kind: PartKind; readonly name: string }[]
  readonly claims: readonly Claim[]
}

export type ShelfView = {
  readonly items: readonly ShelfItem[]
  readonly parts: readonly Part[]
}

export type RunsView = {
  readonly runs: readonly Run[]
  readonly parts: readonly Part[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
}

export type UploadedFile = { readonly name: string; readonly bytes: Uint8Array }

export type ImportReport = {
  readonly tables: readonly {
    readonly file: string
    readonly added: number
    readonly changed: number
    readonly unchanged: number
  }[]
}
