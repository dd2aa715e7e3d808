import type { Shop } from '../core/answer.ts'
import type { Build } from '../core/build.ts'
import type { Language } from '../core/language.ts'
import type { Limits } from '../core/limits/limit.ts'
import type { LimitsSheet } from '../core/sheet/sheet.ts'
import type { Result } from '../problem.ts'

export type PaperSize = 'a4' | 'letter'

/** A sheet, who made it and, where the machine has a label, the code on it. */
export type SheetShown = {
  readonly sheet: LimitsSheet
  readonly shop: Shop
  /** For the drawing of its slots; absent of a sheet that was handed out. */
  readonly machine?: { readonly build: Build; readonly limits: Limits } | undefined
}

/** The sheet in the owner's language; `chosen` is absent where the shop's own counts. */
export type OwnerSheetShown = SheetShown & {
  readonly language: Language
  readonly chosen?: Language | undefined
}

export type HandedShown = SheetShown & {
  readonly subject?: string | undefined
  readonly message?: string | undefined
}

/** What the pages of limits sheets and case labels ask for. */
export type SheetUses = {
  limitsSheet(tag: string): Promise<Result<SheetShown>>
  /** The sheet behind a label's code; all such pages show. */
  sheetBehindLabel(code: string): Promise<Result<SheetShown>>
  /** The sheet of the machine that an owner's link leads to. */
  sheetBehindLink(token: string): Promise<Result<OwnerSheetShown>>
  /** Sheets of a machine that were handed out, the last one first. */
  handedSheets(tag: string): Promise<readonly { readonly id: string; readonly at: string }[]>
  /** One of them as it was then, with the message that went along. */
  handedSheet(tag: string, id: string): Promise<Result<HandedShown>>
  /** A sheet as PDF; `link` is what its code leads to, `reader` who reads it where that is not the shop. */
  sheetPdf(
    shown: SheetShown,
    paper: PaperSize,
    link?: string,
    reader?: Pick<OwnerSheetShown, 'language' | 'chosen'>,
  ): Promise<Uint8Array<ArrayBuffer>>
  /** The code for the label; the first time one is made. */
  caseLabel(tag: string): Promise<Result<{ readonly tag: string; readonly code: string }>>
  /** Another code; the earlier ones lead nowhere from now on. */
  anotherLabel(tag: string): Promise<Result<{ readonly tag: string; readonly code: string }>>
  /** Label sizes in mm, such as `62x29`. */
  readonly labelSizes: readonly string[]
  /** The label as a picture or a PDF; undefined for a size that there is not. */
  drawLabel(
    tag: string,
    link: string,
    size: string,
    as: 'svg' | 'pdf',
  ): Promise<string | Uint8Array<ArrayBuffer> | undefined>
}
