import type { Build } from '../../src/core/build.ts'
import type { Finding, RuleId } from '../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../src/core/limits/limit.ts'
import type { Drive, Part } from '../../src/core/part.ts'
import { board, kit, processor } from '../core/fit/bench.ts'

type Ask = {
  readonly add?: readonly Part[]
  readonly work?: readonly string[]
  readonly at?: Partial<LimitValues>
  readonly not?: readonly LimitKey[]
  readonly had?: Partial<Build>
}

const newBoard: Part = { ...board, id: 'BRD-NEW', name: 'New board' }
const drive: Drive = { kind: 'drive', id: 'DRV-OLD', name: 'Old drive', capacityGB: 240 }
const swap = { add: [newBoard] }
const upgrade = { work: ['system upgrade'] }

/** The owner's sentences of the rules for a new board's system and for the next system, as people read them. */
export const SYSTEM_SAYINGS: readonly (readonly [RuleId, Finding['verdict'], Ask, owner: string])[] = [
  [
    'swap.licence',
    'fits',
    { ...swap, at: { systemLicence: 'none' } },
    'Your system needs no licence, so a new board changes nothing there.',
  ],
  [
    'swap.licence',
    'fits after work',
    { ...swap, at: { systemLicence: 'tied to the board' } },
    "Your system's licence stays with the old board, so the new one needs a new licence.",
  ],
  [
    'swap.licence',
    'fits after work',
    { ...swap, at: { systemLicence: 'moves' } },
    "Your system's licence moves along; it is activated again on the new board.",
  ],
  [
    'swap.licence',
    'fits after work',
    { ...swap, not: ['systemLicence'] },
    'Your system is activated again on the new board; it may need a new licence.',
  ],
  [
    'swap.encryption',
    'fits',
    { ...swap, at: { diskEncrypted: 'no' } },
    'Your drive is not encrypted, so it asks for no recovery key.',
  ],
  [
    'swap.encryption',
    'fits after work',
    { ...swap, at: { diskEncrypted: 'yes' } },
    'Your drive is encrypted and may ask for its recovery key after a new board.',
  ],
  [
    'swap.encryption',
    'fits after work',
    { work: ['firmware update'], not: ['diskEncrypted'] },
    'Your drive may be encrypted and may ask for its recovery key after a firmware update.',
  ],
  ['system.processor', 'fits', upgrade, "Your processor's generation is on the list for the next system."],
  [
    'system.processor',
    'does not fit',
    { ...upgrade, had: { processor: { ...processor, generation: '7th (Kaby Lake)' } } },
    "Your processor is older than the list of the system's maker, so the next system does not take it.",
  ],
  [
    'system.trustModule',
    'fits',
    upgrade,
    'Your board has the trust module that the next system asks for: version 2.0.',
  ],
  [
    'system.trustModule',
    'does not fit',
    { ...upgrade, at: { trustModule: 'none' } },
    'Your board shows no trust module, and the next system asks for version 2.0.',
  ],
  [
    'system.trustModule',
    'does not fit',
    { ...upgrade, at: { trustModule: '1.2' } },
    "Your board's trust module is version 1.2, and the next system asks for 2.0.",
  ],
  [
    'system.secureStart',
    'fits',
    upgrade,
    "Your board's firmware can start signed systems only, as the next system asks.",
  ],
  [
    'system.secureStart',
    'does not fit',
    { ...upgrade, at: { secureStart: 'no' } },
    "Your board's firmware cannot be set to start signed systems only, which the next system asks for.",
  ],
  ['system.memory', 'fits', upgrade, 'The next system asks for 4 GB of memory, and your machine has 16 GB.'],
  [
    'system.memory',
    'fits after work',
    { ...upgrade, had: { memory: [{ ...kit, modules: 1, moduleGB: 2 }] } },
    'The next system asks for 4 GB of memory, and your machine has 2 GB.',
  ],
  [
    'system.disk',
    'fits',
    { ...upgrade, had: { drives: [drive] } },
    'The next system asks for a drive of 64 GB, and yours has 240 GB.',
  ],
  [
    'system.disk',
    'fits after work',
    { ...upgrade, had: { drives: [{ ...drive, capacityGB: 60 }] } },
    'The next system asks for a drive of 64 GB, and your largest has 60 GB.',
  ],
]
