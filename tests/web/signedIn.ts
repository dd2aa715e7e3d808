import type { Who } from '../../src/web/access/who.ts'

/** For tests of pages that are about something else: whoever asks is signed in. Without it the pages are closed. */
export const asOwner = {
  everybodyIs: { kind: 'owner', name: 'Ada', accountId: '1' },
} as const satisfies { everybodyIs: Who }

export const asStaff = {
  everybodyIs: { kind: 'staff', name: 'Bo', accountId: '2' },
} as const satisfies { everybodyIs: Who }

/** As the demo is served. */
export const asDemo = { everybodyIs: { kind: 'demo', name: 'demo' } } as const satisfies { everybodyIs: Who }
