import { emlOf } from '../mail/eml.ts'
import { type Drawn, renderSheet } from '../mail/render.ts'
import { failed, ok, type Result } from '../problem.ts'
import { loadMachine } from '../store/machines.ts'
import type { Store } from '../store/open.ts'
import { loadSale } from '../store/sales.ts'
import { figuresOf } from '../words/figures.ts'
import { sheetMail } from '../words/sheetMail.ts'
import { findTag } from './findMachine.ts'
import { viewLimitsSheet } from './limitsSheet.ts'
import { behindLink, NO_LINK } from './ownerLinks.ts'
import { noSale } from './sell.ts'
import { domainOf, mailboxesOf } from './writeMessage.ts'

/** A link to the owner's page: its secret, and the whole address as it is read. */
export type LinkInMail = { readonly token: string; readonly url: string }

type Mail = Drawn & {
  readonly tag: string
  readonly customerId?: string | undefined
  readonly boxes: ReturnType<typeof mailboxesOf>
}

/**
 * The limits sheet of a machine being sold as a mail, as things stand at `at`, in the builder's words around it; nothing
 * is kept or sent. A link goes in only where it leads to this very machine.
 */
export async function drawSheetMail(
  store: Store,
  typedTag: string,
  at: string,
  link?: LinkInMail,
): Promise<Result<Mail>> {
  const { db } = store
  const tag = await findTag(db, typedTag)
  const sale = tag === undefined ? undefined : await loadSale(db, tag)
  if (tag === undefined || sale === undefined) return failed(noSale(typedTag))
  if (link !== undefined) {
    const behind = await behindLink(db, link.token, at)
    if (!behind.ok) return behind
    if (behind.value.link.machineTag !== tag) return failed(NO_LINK)
  }
  const shown = await viewLimitsSheet(store, tag, at)
  if (!shown.ok) return shown
  const { sheet, shop } = shown.value
  const owner = (await loadMachine(db, tag))?.owner
  const to = { shop, ownerName: owner?.name, words: sale.words, link: link?.url }
  const drawn = await renderSheet(sheetMail(sheet, to, figuresOf(shop, owner)))
  return ok({ ...drawn, tag, customerId: owner?.id, boxes: mailboxesOf(shop, owner) })
}

/** The same as a file that any mail program opens (RFC 5322). A problem where an address is missing at either end. */
export async function sheetMailEml(
  store: Store,
  typedTag: string,
  at: string,
  link?: LinkInMail,
): Promise<Result<{ readonly fileName: string; readonly bytes: Uint8Array }>> {
  const drawn = await drawSheetMail(store, typedTag, at, link)
  if (!drawn.ok) return drawn
  const { boxes, tag, customerId: _, ...mail } = drawn.value
  if (!boxes.ok) return boxes
  const { from, to } = boxes.value
  const left = `sheet-${tag.replaceAll(/[^A-Za-z0-9-]/g, '-')}.${Date.parse(at).toString(36)}`
  const messageId = `<${left}@${domainOf(from.address)}>`
  const bytes = await emlOf({ ...mail, from, to, date: at, messageId })
  return ok({ fileName: `${tag}-limits.eml`, bytes })
}
