import type { SaleStep } from '../core/sale/steps.ts'
import { pathTo } from './frame.ts'

export const pathToSale = (tag: string): string => `/sell/${encodeURIComponent(tag)}`

/** Where a step is done. */
export const pathOfStep = (tag: string, step: SaleStep): string => {
  const machine = pathTo('machines', tag)
  const paths: Record<SaleStep, string> = {
    parts: `${pathToSale(tag)}/parts`,
    reading: `${machine}/reading`,
    tape: `${machine}/measure`,
    runs: `/runs/new?machine=${encodeURIComponent(tag)}&sale=1`,
    sheet: `${machine}/sheet`,
    message: `${pathToSale(tag)}/message`,
    label: `${machine}/label`,
    'handing over': `${pathToSale(tag)}#hand-over`,
  }
  return paths[step]
}
