import type { NextSaid, SheetSaid } from '../words/limitsSheet.ts'
import type { SheetMail } from '../words/sheetMail.ts'
import { block, escapeHtml, h1, h2, h3, paragraph, small } from './draw/html.ts'
import { aside, factsTable, runsTable, supplyBar } from './draw/sheet.ts'
import { itemsTable, orders } from './draw/tables.ts'
import type { Slots } from './frame.ts'
import { slotsWith } from './slots.ts'

/** What each slot of `emails/sheet.mjml` takes. */
export function sheetSlots(mail: SheetMail): Slots {
  const { said } = mail
  return slotsWith(
    { ...mail, tag: said.tag },
    {
      opening: openingOf(mail),
      inside: block(h2(said.inside.head) + factsTable(said.inside.rows)),
      measured: measuredOf(said.measured),
      next: block(h2(said.next.head) + aside(said.next.says) + said.next.kinds.map(kindOf).join('')),
      never: neverOf(said.never),
      free: block(h2(said.free.head) + factsTable(said.free.rows)),
      supply: block(
        h2(said.supply.head) +
          (said.supply.bar === undefined ? '' : supplyBar(said.supply.bar)) +
          said.supply.says.map((text) => paragraph(text)).join(''),
      ),
      warranties: block(h2(said.warranties.head) + said.warranties.rows.map((r) => paragraph(r)).join('')),
      unknown: unknownOf(said.unknown),
      cautions: block(h2(said.cautions.head) + orders(said.cautions.rows)),
      closing: mail.closing.map((text) => paragraph(text)).join('') + signOf(mail.sign),
    },
  )
}

const openingOf = ({ greeting, ready, opening, said }: SheetMail): string =>
  `<p style="margin:0 0 10px">${escapeHtml(greeting)}</p>` +
  paragraph(ready) +
  opening.map((text) => paragraph(text)).join('') +
  h1(said.title) +
  small(said.about.join(' '))

const measuredOf = (measured: SheetSaid['measured']): string =>
  block(h2(measured.head) + aside(measured.says) + (measured.rows.length === 0 ? '' : runsTable(measured)))

const kindOf = ({ head, bounds, best, says }: NextSaid): string =>
  block(
    h3(head) +
      (bounds.length === 0 ? '' : aside(boundsText(bounds))) +
      itemsTable(best.map((part) => ({ ...part, word: part.says, what: part.gains, says: part.why }))) +
      says.map((text) => paragraph(text)).join(''),
  )

export const boundsText = (bounds: NextSaid['bounds']): string =>
  bounds.map(({ label, value }) => `${label}: ${value}`).join('\u00a0· ')

const neverOf = ({ head, groups }: SheetSaid['never']): string =>
  groups.length === 0
    ? ''
    : block(h2(head) + groups.map((group) => h3(group.head) + orders(group.rows) + aside(group.end)).join(''))

const unknownOf = ({ head, says, rows }: SheetSaid['unknown']): string =>
  rows.length === 0
    ? ''
    : block(h2(head) + aside(says) + orders(rows.map(({ label, text }) => `${label}: ${text}`)))

const signOf = (sign: readonly string[]): string =>
  `<p style="margin:0">${sign.map(escapeHtml).join('<br />')}</p>`
