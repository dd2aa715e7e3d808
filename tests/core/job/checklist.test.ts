import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { WORK_IDS, type WorkId } from '../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import { checklist } from '../../../src/core/job/checklist.ts'
import { card, change, cooler, kit, machine, policy, processor, supply } from '../fit/bench.ts'

const newCard = { ...card, id: 'CARD-NEW' }
const newSupply = { ...supply, id: 'SUPPLY-NEW' }
const newProcessor = { ...processor, id: 'CPU-NEW' }
const said = (c: ReturnType<typeof change>, promised: { titleId: string; settingId: string }[] = []) =>
  checklist(machine, c, [], promised).map(({ what, ref }) => [what, ref].filter(Boolean).join(' '))

// The order is common practice of the bench: firmware while the old processor is in, case and board before what sits
// on them, the card last; what needs a running machine comes after closing.
describe('the checklist of a job', () => {
  test('a card with a supply: old parts out, supply in before the card, then measured, tested, settled, told', () => {
    expect(
      said(change([newCard, newSupply], [], ['driver clean-up']), [{ titleId: 'tern', settingId: 'high' }]),
    ).toEqual([
      'opening',
      `take out ${card.id}`,
      `take out ${supply.id}`,
      'fit SUPPLY-NEW',
      'fit CARD-NEW',
      'work driver clean-up',
      'measure tern@high',
      `test what came out ${card.id}`,
      `test what came out ${supply.id}`,
      'settle',
      'tell the owner',
    ])
  })

  test('firmware comes before the old processor goes', () => {
    const steps = said(change([newProcessor], [], ['pause encryption', 'firmware update']))
    expect(steps.slice(0, 4)).toEqual([
      'work pause encryption',
      'work firmware update',
      'opening',
      `take out ${processor.id}`,
    ])
  })

  test('work outside the machine alone does not open it', () => {
    expect(said(change([], [], ['memory profile on']))).toEqual([
      'work memory profile on',
      'settle',
      'tell the owner',
    ])
  })

  test.each(WORK_IDS)('law: %s stands on the list once, wherever it belongs', (id: WorkId) => {
    expect(said(change([newCard], [], [id])).filter((line) => line === `work ${id}`)).toHaveLength(1)
  })

  test('a work nobody knows stays on the list, inside', () => {
    const steps = said(change([], [], ['polishing']))
    expect(steps).toEqual(['opening', 'work polishing', 'settle', 'tell the owner'])
  })

  // Service manuals and repair handbooks: unplug, discharge, keep the supply closed, mind static.
  test('hands in come with every caution, and a part with its own', () => {
    const c = change([{ ...newCard, plugs: { pin6: 0, pin8: 2, pin16: 0 } }])
    const { findings } = judgeChange({ tag: 'M-1', build: machine, claims: [] }, c, policy)
    const steps = checklist(machine, c, findings, [])
    expect(steps.find(({ what }) => what === 'opening')?.cautions).toEqual(
      expect.arrayContaining(['unplug', 'discharge', 'psu-closed', 'esd', 'defer']),
    )
    expect(steps.find(({ what }) => what === 'fit')?.cautions).toContain('psu-cables')
  })

  test('two equal kits out are two steps', () => {
    const two = buildOf([kit, kit, cooler])
    const steps = checklist(two, change([], [kit.id, kit.id]), [], [])
    expect(steps.filter(({ what }) => what === 'take out')).toHaveLength(2)
  })
})
