import type { Claim, Limits } from '../core/limits/limit.ts'
import type { SaleWords } from '../core/sale/sale.ts'
import type { LeavableStep } from '../core/sale/steps.ts'
import type { Result } from '../problem.ts'
import type { MachineOn } from '../uses/machineOn.ts'
import type { NewSale, Sold } from '../uses/sell.ts'
import type { SaleMessageView, SaleMoney } from '../uses/sellSteps.ts'
import type { SaleRecordLine, SalesView, SaleView } from '../uses/sellViews.ts'
import type { LinkInMail } from '../uses/sheetMail.ts'

type Tagged = Promise<Result<{ readonly tag: string }>>

/** What the pages of sales and of the tape measure ask for. A problem with code `conflict` says why it cannot be done now. */
export type SellUses = {
  sales(): Promise<SalesView>
  /** All of them, the last one first. */
  saleRecords(): Promise<readonly SaleRecordLine[]>
  /** `view` absent: the machine is known, and no sale of it was written down. */
  sale(tag: string): Promise<Result<{ readonly tag: string; readonly view?: SaleView | undefined }>>
  /** Fields of its problems: `tag soldOn ownerName parts`, `take.<item>`, `part.<kind>.<n>`. */
  sellMachine(sale: NewSale): Promise<Result<Sold>>
  /** The same steps for a machine that is written down already. */
  startSale(tag: string): Tagged
  addToSale(tag: string, more: Pick<NewSale, 'taken' | 'brought'>): Promise<Result<Sold>>
  putPartBack(tag: string, partRowId: string): Tagged
  takeSaleBack(tag: string): Tagged
  leaveOutStep(tag: string, step: LeavableStep, isLeftOut: boolean): Tagged
  sheetIsRight(tag: string): Tagged
  setSaleMoney(tag: string, money: SaleMoney): Tagged
  /** `link`: an owner's page that was made a moment ago. */
  saleMessage(tag: string, link?: string): Promise<Result<SaleMessageView>>
  /** The limits sheet as a mail, without a link. */
  sheetMail(tag: string): Promise<Result<{ readonly html: string; readonly text: string }>>
  /** A problem where the shop or the buyer has no address, or where the link leads elsewhere. */
  sheetMailEml(
    tag: string,
    link?: LinkInMail,
  ): Promise<Result<{ readonly fileName: string; readonly bytes: Uint8Array }>>
  /** Fields of its problems: `subject opening closing`. */
  draftSaleMessage(tag: string, words: SaleWords): Tagged
  handOver(tag: string): Tagged
  takeHandingBack(tag: string): Tagged
  /** The machine as it stood at the end of the day whose noon is given. */
  machineOn(tag: string, noon: string): Promise<Result<MachineOn>>
  tape(
    tag: string,
  ): Promise<Result<{ readonly tag: string; readonly limits: Limits; readonly isSelling: boolean }>>
  /** All of them or none, dated now. Fields of its problems: `source.<key>`. */
  recordLimits(tag: string, claims: readonly Claim[]): Tagged
}
