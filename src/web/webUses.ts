import type { Shop } from '../core/answer.ts'
import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import type { Language } from '../core/language.ts'
import type { Claim, LimitKey } from '../core/limits/limit.ts'
import type { Part } from '../core/part.ts'
import type { PhotoType } from '../core/photo.ts'
import type { Question } from '../core/question.ts'
import type { ShopFile } from '../input/shopFolder.ts'
import type { Result } from '../problem.ts'
import type { NewMachine, NewPartRead } from '../uses/addMachine.ts'
import type { BestLines } from '../uses/answers/bestLines.ts'
import type { BackupUses } from '../uses/backups.ts'
import type { QuestionChange } from '../uses/changeQuestion.ts'
import type { ChangeUses } from '../uses/changes.ts'
import type { Correction } from '../uses/correctMachine.ts'
import type { Kept } from '../uses/customerKept.ts'
import type { CustomerRecord } from '../uses/customerRecord.ts'
import type { CustomerUses } from '../uses/customerViews.ts'
import type { Day } from '../uses/day.ts'
import type { ExportedTable } from '../uses/exportShop.ts'
import type { Found } from '../uses/findAnything.ts'
import type { FrameLogUses } from '../uses/frameLogs.ts'
import type { FitProgress } from '../uses/gain/keptFit.ts'
import type { WhyView } from '../uses/gain/whyNumber.ts'
import type { ImportReport } from '../uses/importShop.ts'
import type { Reported } from '../uses/jobs/reportAtHome.ts'
import type { OutboxUses } from '../uses/outbox/outboxUses.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import type { PartingView } from '../uses/ownerPerson.ts'
import type { ModelSaid } from '../uses/partInMind.ts'
import type { Proposal } from '../uses/readTable.ts'
import type { TitlesTested } from '../uses/titlesTested.ts'
import type {
  Known,
  MachineLine,
  MachineSearch,
  MachineView,
  PartView,
  Piece,
  QuestionList,
  QuestionSearch,
  QuestionsView,
  QuestionView,
  ShelfList,
  ShelfSearch,
  ShelfView,
  StoredAnswerView,
} from '../uses/views.ts'
import type { MessageView } from '../uses/writeMessage.ts'
import type { LetterEdits } from '../words/answer/letter.ts'
import type { AccessUses } from './access/accessUses.ts'
import type { FindableUses } from './findableUses.ts'
import type { JobUses } from './jobUses.ts'
import type { MeasureUses } from './measureUses.ts'
import type { OffersUses } from './offersUses.ts'
import type { PlatformsUses } from './platformsUses.ts'
import type { ReadingUses } from './readingUses.ts'
import type { RoundUses } from './roundUses.ts'
import type { RunUses } from './runUses.ts'
import type { SellUses } from './sellUses.ts'
import type { SheetUses } from './sheetUses.ts'
import type { ShelfUses } from './shelfUses.ts'
import type { WorkUses } from './workUses.ts'

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
  /** Where a form with that mark led when it was sent before; undefined where it was not. */
  formLedTo(mark: string): Promise<string | undefined>
  rememberForm(mark: string, ledTo: string): Promise<void>
  questions(): Promise<QuestionsView>
  /** One piece of the questions in some states, found by words. */
  questionList(search: QuestionSearch): Promise<QuestionList>
  /** What is due today beside questions. */
  day(): Promise<Day>
  /** What forms offer to pick from. */
  known(): Promise<Known>
  /** Things of every kind that are called so, at most so many of a kind. */
  find(typed: string, most: number): Promise<Found>
  /** The tag of every machine. */
  tags(): Promise<readonly string[]>
  /** `machineTag` may be an owner's name too. Fields of its problems: `machineTag wanted partInMind complaint`. */
  /** The answers to these questions in one line each, as last worked out; nobody waits for them. */
  bestLines(ids: readonly string[]): Promise<BestLines>
  /** Titles a question about this machine can begin with. */
  titlesTested(typed: string, most: number): Promise<Result<TitlesTested>>
  takeQuestion(question: Omit<Question, 'id' | 'askedAt'>): Promise<Result<{ readonly id: string }>>
  /** What a question asks from now on; `seen` is the mark of the question that was looked at. */
  changeQuestion(
    questionId: string,
    change: QuestionChange,
    seen?: string | undefined,
  ): Promise<Result<{ readonly id: string }>>
  /** Which exact model the part in mind is, or that nobody knows. */
  sayModel(questionId: string, said: ModelSaid): Promise<Result<{ readonly id: string }>>
  /** Keeps the figures of the part in mind with its question. */
  describePartInMind(questionId: string, part: Part): Promise<Result<{ readonly id: string }>>
  /** Says which record the words of a part in mind mean. */
  nameRecord(questionId: string, partId: string): Promise<Result<{ readonly id: string }>>
  /** Computes the answer as things stand now and stores nothing. */
  questionView(questionId: string): Promise<Result<QuestionView>>
  storedAnswer(answerId: string): Promise<Result<StoredAnswerView>>
  /** What stands behind an option's number, as the question is answered now. */
  whyOfQuestion(questionId: string, optionId: string | undefined): Promise<Result<WhyView>>
  whyOfAnswer(answerId: string, optionId: string | undefined): Promise<Result<WhyView>>
  /** A fit of the gain model that is not done within so many milliseconds; undefined when it is, or cannot be made. */
  fitUnderWay(waitMs: number): Promise<FitProgress | undefined>
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
  /** One piece of those with that text in tag, owner or parts; of all for ''. */
  machines(search: MachineSearch): Promise<Piece<MachineLine>>
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
  /** One page of it, found by words or by an item that is on it. */
  shelfList(search: ShelfSearch): Promise<ShelfList>
  importFiles(files: readonly ShopFile[]): Promise<Result<ImportReport>>
  /** One table of the shop as the import reads it, by its file's name without `.csv`. */
  exportTable(name: string): Promise<Result<ExportedTable>>
  callOffQuestion(questionId: string, because: string | undefined): Promise<Result<{ readonly id: string }>>
  takeUpQuestion(questionId: string): Promise<Result<{ readonly id: string }>>
  /** `undefined` takes the reminder away. */
  remindOfQuestion(questionId: string, remindAt: string | undefined): Promise<Result<{ readonly id: string }>>
  /** The owner has the answer, however it went out. */
  toldOwner(messageId: string): Promise<Result<{ readonly messageId: string }>>
  /** Asks the owner for one limit; without a question, for the machine's own sake. */
  askOwner(request: {
    readonly machineTag: string
    readonly questionId?: string | undefined
    readonly limitKey: LimitKey
  }): Promise<Result<{ readonly requestId: string; readonly tag: string }>>
  withdrawRequest(
    requestId: string,
  ): Promise<Result<{ readonly tag: string; readonly questionId?: string | undefined }>>
  /** Fields of its problems: `photo`. */
  addPhoto(
    tag: string,
    photo: { readonly bytes: Uint8Array; readonly requestId?: string | undefined },
  ): Promise<Result<{ readonly tag: string; readonly photoId: string }>>
  photo(id: string): Promise<Result<{ readonly mediaType: PhotoType; readonly bytes: Uint8Array }>>
  /** The token is given out this once. `by` stands in the access log. */
  makeOwnerLink(
    tag: string,
    by?: string,
  ): Promise<Result<{ readonly tag: string; readonly token: string; readonly expiresAt: string }>>
  takeLinksBack(tag: string, by?: string): Promise<Result<{ readonly tag: string }>>
} & AccessUses &
  BackupUses &
  ChangeUses &
  OwnerUses &
  RunUses &
  FindableUses &
  FrameLogUses &
  MeasureUses &
  OutboxUses &
  JobUses &
  OffersUses &
  RoundUses &
  PlatformsUses &
  ReadingUses &
  SellUses &
  SheetUses &
  ShelfUses &
  WorkUses &
  CustomerUses

/** What an owner's page asks for: all of it behind a link that holds, nothing of it about anybody else. */
export type OwnerUses = {
  /** Whether the link leads to a page at this moment. */
  linkHolds(token: string): Promise<boolean>
  ownerPage(token: string): Promise<Result<OwnerPageView>>
  /** Fields of its problems: `wanted partInMind complaint photo`. */
  ownerAsks(
    token: string,
    question: Omit<Question, 'id' | 'askedAt' | 'machineTag' | 'cameBy'>,
    photos?: readonly Uint8Array[],
  ): Promise<Result<{ readonly id: string }>>
  ownerLimit(token: string, requestId: string, claim: Claim): Promise<Result<{ readonly limitKey: LimitKey }>>
  /** Fields of its problems: `photo.<request>`. */
  ownerPhoto(
    token: string,
    requestId: string,
    bytes: Uint8Array,
  ): Promise<Result<{ readonly photoId: string }>>
  /** Fields of its problems: `reportTitle reportLow1Fps`. */
  ownerReports(token: string, jobId: string, reported: Reported): Promise<Result<{ readonly jobId: string }>>
  /** What a table says beside what is written down; stores nothing. */
  ownerReadingPreview(token: string, table: FirmwareTable): Promise<Result<Proposal>>
  /** Keeps it for the shop to look at; the machine stays as it is. */
  ownerSendsReading(token: string, table: FirmwareTable): Promise<Result<{ readonly tag: string }>>
} & OwnerPersonUses

/** What an owner decides about themselves. */
export type OwnerPersonUses = {
  /** `wording` is what stood on the page. Fields of its problems: `consent`. */
  ownerConsents(
    token: string,
    said: { readonly yes: boolean; readonly wording: string },
  ): Promise<Result<{ readonly customerId: string }>>
  ownerWithdraws(token: string): Promise<Result<{ readonly customerId: string }>>
  /** What the link shows of a machine that its owner said is sold; any other link is a problem. */
  ownerParted(token: string): Promise<Result<PartingView>>
  ownerParts(token: string): Promise<Result<{ readonly tag: string }>>
  ownerTakesPartingBack(token: string): Promise<Result<{ readonly tag: string }>>
  /** What erasing takes away and what it leaves. */
  ownerErase(token: string): Promise<Result<Kept>>
  /** Fields of its problems: `sure`. */
  ownerAsksErase(token: string, sure: boolean): Promise<Result<{ readonly customerId: string }>>
  ownerTakesEraseBack(token: string): Promise<Result<{ readonly customerId: string }>>
  /** All that is kept of them and of this machine. */
  ownerRecord(token: string): Promise<Result<CustomerRecord>>
  /** The page, and the shop's mails, are in that language from now on. */
  ownerReads(token: string, language: Language): Promise<Result<{ readonly customerId: string }>>
}
