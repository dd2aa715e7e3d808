import { expect, test } from 'vitest'
import { LABEL_CODE } from '../../src/uses/caseLabels.ts'
import { sheetUsesOf } from '../../src/uses/sheetUses.ts'
import { unwrapped } from '../demo/preparedShop.ts'
import { temporaryFolder } from '../store/temporaryStore.ts'
import { AT, copyOf, shopFile } from './jobs/jobShop.ts'

test('a label keeps its code until another is made; then the old one leads nowhere', async () => {
  const { store, close } = await copyOf(await shopFile(await temporaryFolder()))
  const uses = sheetUsesOf(store, () => AT)
  const { tag, code } = unwrapped(await uses.caseLabel('m-0186'))
  expect(tag).toBe('M-0186')
  expect(code).toMatch(LABEL_CODE)
  expect(unwrapped(await uses.caseLabel('M-0186')).code).toBe(code)
  expect(unwrapped(await uses.caseLabel('M-0190')).code).not.toBe(code)

  // The page behind the label is the machine's own sheet, and knows nobody.
  const behind = unwrapped(await uses.sheetBehindLabel(code))
  expect(behind.sheet).toEqual(unwrapped(await uses.limitsSheet('M-0186')).sheet)

  const { code: another } = unwrapped(await uses.anotherLabel('M-0186'))
  expect(another).not.toBe(code)
  expect((await uses.sheetBehindLabel(code)).ok).toBe(false)
  expect((await uses.sheetBehindLabel(another)).ok).toBe(true)
  await close()
})

test.each(['', 'M-0186', '0000000000000000', "' or 1=1 --", 'O'.repeat(16)])(
  '%s leads nowhere',
  async (code) => {
    const { store, close } = await copyOf(await shopFile(await temporaryFolder()))
    expect(await sheetUsesOf(store, () => AT).sheetBehindLabel(code)).toMatchObject({ ok: false })
    await close()
  },
)
