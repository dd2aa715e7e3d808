import type { Answer, Customer, Shop } from '../core/answer.ts'
import type { Run, Setting, Title } from '../core/gain/run.ts'
import type { Claim, Limits } from '../core/limits/limit.ts'
import type { Machine } from '../core/machine.ts'
import type { Minor } from '../core/money.ts'
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
  /** ISO 8601 UTC; for "asked 2 days ago". */
  now(): string
  /** The shop's own particulars; before any were given, neutral ones, so that every page can be drawn. */
  shop(): Promise<Shop>
  /** Fields of its problems: the columns of the shop's table, such as `currency`. */
  describeShop(shop: Shop): Promise<Result<Shop>>
  questions(): Promise<QuestionsView>
  /** What forms offer to pick from. */
  known(): Promise<Known>
  /** Fields of its problems: `machineTag wanted`. */
  takeQuestion(question: NewQuestion): Promise<Result<{ readonly id: string }>>
  /** Computes the answer as things stand now and stores nothing. */
  questionView(questionId: string): Promise<Result<QuestionView>>
  storedAnswer(answerId: string): Promise<Result<StoredAnswer>>
  /** Stores the answer as it stands now and a message about it. `pickId` absent: the ranking's own pick. */
  prepareMessage(
    questionId: string,
    pickId: string | undefined,
  ): Promise<Result<{ readonly messageId: string }>>
  message(messageId: string): Promise<Result<MessageView>>
  /** Fields of its problems: `subject opening closing pickId`. */
  saveMessage(messageId: string, edits: LetterEdits): Promise<Result<{ readonly messageId: string }>>
  /** The mail as an RFC 5322 file; a problem when the customer has no address. */
  messageEml(messageId: string): Promise<Result<{ readonly fileName: string; readonly bytes: Uint8Array }>>
  /** Those with that text in tag, owner or parts; all for ''. */
  machines(query: string): Promise<readonly MachineLine[]>
  machine(tag: string): Promise<Result<MachineView>>
  /** Fields of its problems: `tag ownerName ownerEmail soldOn`, `part.<kind>.<n>`, `limit.<key>`. */
  addMachine(machine: NewMachine): Promise<Result<{ readonly tag: string }>>
  /** Adds one claim, dated now. Fields of its problems: `limit.<key>`. */
  recordLimit(tag: string, claim: Claim): Promise<Result<{ readonly tag: string }>>
  shelf(): Promise<ShelfView>
  runs(): Promise<RunsView>
  importFiles(files: readonly UploadedFile[]): Promise<Result<ImportReport>>
}

export type QuestionLine = {
  readonly id: string
  readonly machineTag: string
  readonly words: string
  readonly askedAt: string
  readonly customerName?: string | undefined
  readonly targetFps?: number | undefined
  readonly budgetMinor?: Minor | undefined
  /** The newest kept answer, and when it was made. */
  readonly answerId?: string | undefined
  readonly answeredAt?: string | undefined
  /** A message was written. */
  readonly drafted: boolean
}

export type QuestionsView = {
  /** Who has waited longest first. */
  readonly waiting: readonly QuestionLine[]
  readonly answered: readonly QuestionLine[]
  /** Nothing at all is known yet: no machine, no shelf, no question. */
  readonly emptyShop: boolean
}

export type Known = {
  readonly machines: readonly Pick<MachineLine, 'tag' | 'ownerName'>[]
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
  readonly ownerName?: string | undefined
  readonly soldAt?: string | undefined
  readonly processorName?: string | undefined
  readonly cardName?: string | undefined
  /** How many questions were asked about it. */
  readonly questions: number
}

/** A part in a machine from when to when; no `fittedAt`: since before anybody wrote it down. */
export type Stay = {
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
  /** Every part that is or was in it, oldest first. */
  readonly history: readonly Stay[]
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
  readonly items: readonly { readonly item: ShelfItem; readonly part: Part }[]
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
