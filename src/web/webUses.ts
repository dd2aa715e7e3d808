import type { Shop } from '../core/answer.ts'
import type { Claim } from '../core/limits/limit.ts'
import type { Part } from '../core/part.ts'
import type { Question } from '../core/question.ts'
import type { ShopFile } from '../input/shopFolder.ts'
import type { Result } from '../problem.ts'
import type { NewMachine, NewPartRead } from '../uses/addMachine.ts'
import type { Correction } from '../uses/correctMachine.ts'
import type { ImportReport } from '../uses/importShop.ts'
import type {
  Known,
  MachineLine,
  MachineView,
  PartView,
  QuestionsView,
  QuestionView,
  RunsView,
  ShelfView,
  StoredAnswerView,
} from '../uses/views.ts'
import type { MessageView } from '../uses/writeMessage.ts'
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
  /** `machineTag` may be an owner's name too. Fields of its problems: `machineTag wanted`. */
  takeQuestion(question: Omit<Question, 'id' | 'askedAt'>): Promise<Result<{ readonly id: string }>>
  /** Computes the answer as things stand now and stores nothing. */
  questionView(questionId: string): Promise<Result<QuestionView>>
  storedAnswer(answerId: string): Promise<Result<StoredAnswerView>>
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
  addMachine(
    machine: NewMachine,
  ): Promise<Result<{ readonly tag: string; readonly newParts: readonly NewPartRead[] }>>
  /** The same fields without `tag` and limits. */
  correctMachine(
    tag: string,
    correction: Correction,
  ): Promise<Result<{ readonly tag: string; readonly newParts: readonly NewPartRead[] }>>
  /** Adds one claim, dated now. Fields of its problems: `source.<key>`. */
  recordLimit(tag: string, claim: Claim): Promise<Result<{ readonly tag: string }>>
  part(partId: string): Promise<Result<PartView>>
  /** Keeps the part's key and kind. What a figure is absent for is not known any more. */
  describePart(part: Part): Promise<Result<{ readonly id: string }>>
  shelf(): Promise<ShelfView>
  runs(): Promise<RunsView>
  importFiles(files: readonly ShopFile[]): Promise<Result<ImportReport>>
}
