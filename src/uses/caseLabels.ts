import { randomBytes } from 'node:crypto'
import { caseLabelPdf, caseLabelSvg, type LabelSize } from '../paper/caseLabel.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { endLabels, insertLabel, labelCode, machineOfLabel } from '../store/labels.ts'
import type { Db, Store } from '../store/open.ts'
import { LIMITS_SHEET_EN } from '../words/en/limitsSheet.ts'
import { findTag } from './findMachine.ts'
import { shopOrNeutral } from './shop.ts'

/** Crockford's base 32: no letter that is taken for a figure. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
/** Five bits each, 80 in all: nobody finds one by trying, and the code on the label stays small. */
const CODE_LENGTH = 16
export const LABEL_CODE = /^[0-9A-HJKMNP-TV-Z]{16}$/

const newCode = (): string => Array.from(randomBytes(CODE_LENGTH), (byte) => LETTERS[byte % 32]).join('')

const noMachine = (typedTag: string): Problem => ({
  ...{ code: 'not found', field: 'machine', got: typedTag },
  next: 'There is no machine with this tag. The list of machines shows them all.',
})

export type CaseLabel = { readonly tag: string; readonly code: string }

/** The code for the machine's label; the first time one is made. The same ever after, so that a label can be printed again. */
export async function caseLabel(store: Store, typedTag: string, at: string): Promise<Result<CaseLabel>> {
  const tag = await findTag(store.db, typedTag)
  if (tag === undefined) return failed(noMachine(typedTag))
  const known = await labelCode(store.db, tag)
  if (known !== undefined) return ok({ tag, code: known })
  return store.write(async (tx) => ok({ tag, code: (await labelCode(tx, tag)) ?? (await make(tx, tag, at)) }))
}

/** Another code; labels with an earlier one lead nowhere from now on. */
export async function anotherLabel(store: Store, typedTag: string, at: string): Promise<Result<CaseLabel>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, typedTag)
    if (tag === undefined) return failed(noMachine(typedTag))
    await endLabels(tx, tag, at)
    return ok({ tag, code: await make(tx, tag, at) })
  })
}

async function make(tx: Db, tag: string, at: string): Promise<string> {
  const code = newCode()
  await insertLabel(tx, code, tag, at)
  return code
}

/** The tag behind a code; the same problem whether nobody made it or it has ended. */
export async function behindLabel(db: Db, code: string): Promise<Result<string>> {
  const tag = LABEL_CODE.test(code) ? await machineOfLabel(db, code) : undefined
  if (tag !== undefined) return ok(tag)
  const next = 'This label does not lead anywhere. Ask the shop whose name is on it for a new one.'
  return failed({ code: 'not found', field: 'label', next })
}

/** The label to print; `link` is what its code leads to. */
export async function drawCaseLabel(
  { db }: Store,
  tag: string,
  link: string,
  size: LabelSize,
  as: 'svg' | 'pdf',
  at: string,
): Promise<string | Uint8Array<ArrayBuffer>> {
  const { name } = await shopOrNeutral(db)
  const label = { tag, link, shop: name, says: LIMITS_SHEET_EN.label }
  return as === 'svg' ? caseLabelSvg(label, size) : caseLabelPdf(label, size, at)
}
