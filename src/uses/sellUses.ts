import type { Claim } from '../core/limits/limit.ts'
import type { SaleWords } from '../core/sale/sale.ts'
import type { LeavableStep } from '../core/sale/steps.ts'
import type { Store } from '../store/open.ts'
import { viewMachineOn } from './machineOn.ts'
import { recordLimits } from './recordLimit.ts'
import { addToSale, type NewSale, sellMachine, startSale } from './sell.ts'
import { putPartBack, takeSaleBack } from './sellBack.ts'
import {
  draftSaleMessage,
  handOver,
  leaveOutStep,
  type SaleMoney,
  setSaleMoney,
  sheetIsRight,
  takeHandingBack,
  viewSaleMessage,
} from './sellSteps.ts'
import { listSaleRecords, viewSale, viewSales, viewTape } from './sellViews.ts'
import { drawSheetMail, type LinkInMail, sheetMailEml } from './sheetMail.ts'

/** Sales of this store, as pages ask for them. */
export function sellUsesOf(store: Store, now: () => string) {
  return {
    sales: () => viewSales(store),
    saleRecords: () => listSaleRecords(store),
    sale: (tag: string) => viewSale(store, tag),
    sellMachine: (sale: NewSale) => sellMachine(store, sale, now()),
    startSale: (tag: string) => startSale(store, tag, now()),
    addToSale: (tag: string, more: Pick<NewSale, 'taken' | 'brought'>) => addToSale(store, tag, more, now()),
    putPartBack: (tag: string, partRowId: string) => putPartBack(store, tag, partRowId),
    takeSaleBack: (tag: string) => takeSaleBack(store, tag),
    leaveOutStep: (tag: string, step: LeavableStep, isLeftOut: boolean) =>
      leaveOutStep(store, tag, step, isLeftOut),
    sheetIsRight: (tag: string) => sheetIsRight(store, tag, now()),
    setSaleMoney: (tag: string, money: SaleMoney) => setSaleMoney(store, tag, money),
    saleMessage: (tag: string, link?: string) => viewSaleMessage(store, tag, now(), link),
    sheetMail: (tag: string) => drawSheetMail(store, tag, now()),
    sheetMailEml: (tag: string, link?: LinkInMail) => sheetMailEml(store, tag, now(), link),
    draftSaleMessage: (tag: string, words: SaleWords) => draftSaleMessage(store, tag, words),
    handOver: (tag: string) => handOver(store, tag, now()),
    takeHandingBack: (tag: string) => takeHandingBack(store, tag),
    machineOn: (tag: string, noon: string) => viewMachineOn(store, tag, noon),
    tape: (tag: string) => viewTape(store, tag),
    recordLimits: (tag: string, claims: readonly Claim[]) => recordLimits(store, tag, claims, now()),
  }
}
