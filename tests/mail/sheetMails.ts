import { buildOf } from '../../src/core/build.ts'
import { measuredModel } from '../../src/core/gain/measured.ts'
import { limitsSheetOf, type SheetInputs } from '../../src/core/sheet/limitsSheet.ts'
import type { LimitsSheet } from '../../src/core/sheet/sheet.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { type SheetMail, type SheetMailTo, sheetMail } from '../../src/words/sheetMail.ts'
import { machine, NOW, parts, runs, settings, shop, titles } from '../web/cannedShop.ts'

const inputs: SheetInputs = {
  ...{ titles, settings, parts, policy: shop.policy },
  ownRuns: runs.filter((run) => run.machineTag === machine.tag),
  warranties: [],
  machine: { ...machine, at: NOW },
  model: measuredModel(runs, shop.policy),
}

export const SHEET: LimitsSheet = limitsSheetOf(inputs)
const BARE: LimitsSheet = limitsSheetOf({
  ...inputs,
  ownRuns: [],
  machine: { ...machine, at: NOW, build: buildOf([]), claims: [] },
})

export const LINK = 'https://ask.example/o/c4NnedT0ken_of-43-signs-for-the-tests-0123-4'

export const mailOf = (sheet: LimitsSheet = SHEET, to: Partial<SheetMailTo> = {}): SheetMail =>
  sheetMail(sheet, { shop, ownerName: 'Imke Sander', ...to }, figuresFor(shop))

const over: LimitsSheet = {
  ...SHEET,
  supply: { known: true, loadW: 480, usableW: 400, rated12VW: 500, processorW: 125, cardW: 300, restW: 55 },
  measured: SHEET.measured.map((one) => ({ ...one, disagrees: true, low1Fps: undefined })),
  warranties: [
    { partName: 'A card', givenBy: 'maker', until: '2027-06-01T12:00:00.000Z', endsWith: 'water in it' },
  ],
}

/** The same sheet in the states in which it says other things. */
export const SHEET_MAILS: Readonly<Record<string, SheetMail>> = {
  plain: mailOf(),
  'link and own words': mailOf(SHEET, {
    link: LINK,
    words: { subject: 'Here it is', opening: 'One.\n\nTwo.', closing: 'See you.' },
  }),
  'nothing known': mailOf(BARE, {
    ownerName: undefined,
    shop: { ...shop, email: '', address: '', builder: '' },
  }),
  'too much load, runs that disagree': mailOf(over),
}
