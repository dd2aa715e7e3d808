import { type Language, languageFor } from '../core/language.ts'
import { LABEL_SIZES, type LabelSize } from '../paper/caseLabel.ts'
import type { Paper } from '../paper/document.ts'
import { limitsSheetPdf } from '../paper/limitsSheetPdf.ts'
import { ok, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { figuresFor, figuresOf } from '../words/figures.ts'
import { saySheet } from '../words/limitsSheet.ts'
import { anotherLabel, behindLabel, caseLabel, drawCaseLabel } from './caseLabels.ts'
import { type SheetView, viewHandedSheet, viewHandedSheets, viewLimitsSheet } from './limitsSheet.ts'
import { behindLink } from './ownerLinks.ts'

/** What whoever has an owner's link reads; `chosen` is absent where the shop's own language counts. */
type Reader = { readonly language: Language; readonly chosen?: Language | undefined }

const isSize = (text: string): text is LabelSize => Object.hasOwn(LABEL_SIZES, text)

/** Limits sheets and case labels of this store, as pages ask for them. */
export function sheetUsesOf(store: Store, now: () => string) {
  return {
    limitsSheet: (tag: string) => viewLimitsSheet(store, tag, now()),
    sheetBehindLabel: async (code: string): Promise<Result<SheetView>> => {
      const tag = await behindLabel(store.db, code)
      return tag.ok ? viewLimitsSheet(store, tag.value, now()) : tag
    },
    sheetBehindLink: async (token: string): Promise<Result<SheetView & Reader>> => {
      const behind = await behindLink(store.db, token, now())
      if (!behind.ok) return behind
      const view = await viewLimitsSheet(store, behind.value.link.machineTag, now())
      if (!view.ok) return view
      const chosen = behind.value.loaded.owner?.language
      return ok({ ...view.value, language: languageFor(view.value.shop.locale, chosen), chosen })
    },
    handedSheets: (tag: string) => viewHandedSheets(store, tag),
    handedSheet: (tag: string, id: string) => viewHandedSheet(store, tag, id),
    sheetPdf: ({ sheet, shop }: SheetView, paper: Paper, link?: string, reader?: Reader) =>
      limitsSheetPdf(
        saySheet(
          sheet,
          { name: shop.name, contact: shop.email },
          reader === undefined ? figuresFor(shop) : figuresOf(shop, { language: reader.chosen }),
        ),
        { shop: shop.name, at: sheet.at, link },
        paper,
      ),
    caseLabel: (tag: string) => caseLabel(store, tag, now()),
    anotherLabel: (tag: string) => anotherLabel(store, tag, now()),
    labelSizes: Object.keys(LABEL_SIZES),
    drawLabel: async (tag: string, link: string, size: string, as: 'svg' | 'pdf') =>
      isSize(size) ? drawCaseLabel(store, tag, link, size, as, now()) : undefined,
  }
}
