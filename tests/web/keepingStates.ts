import { failed } from '../../src/problem.ts'
import { cannedBackups } from './cannedKeeping.ts'
import type { PageState } from './states.ts'

const { nextAt: _, lastGoodAt: __, ...never } = cannedBackups

/** Copies of the database and the log of changes, in every state. */
export const KEEPING_STATES: readonly PageState[] = [
  { name: 'backups', path: '/settings/backups?made' },
  {
    ...{ name: 'backups-none', path: '/settings/backups' },
    uses: { backups: async () => ({ ...never, lines: [], isOld: true, sameDisk: true }) },
  },
  {
    ...{ name: 'backups-old', path: '/settings/backups' },
    uses: {
      backups: async () => ({ ...cannedBackups, isOld: true, lastGoodAt: '2026-06-01T08:00:00.000Z' }),
    },
  },
  {
    ...{ name: 'settings-backups-old', path: '/settings' },
    uses: {
      backups: async () => ({ ...cannedBackups, isOld: true, lastGoodAt: '2026-06-01T08:00:00.000Z' }),
    },
  },
  {
    ...{ name: 'backups-off', path: '/settings/backups' },
    uses: { backups: async () => ({ ...never, folder: undefined, lines: [], isOld: true }) },
  },
  {
    ...{ name: 'backups-server', path: '/settings/backups' },
    uses: {
      backups: async () => ({ ...never, folder: undefined, isOnServer: true, lines: [], isOld: false }),
    },
  },
  {
    ...{ name: 'backups-failed', path: '/settings/backups', status: 409, form: {} },
    uses: {
      backUpNow: async () =>
        failed({
          code: 'conflict',
          field: 'backup',
          next: 'The disk is full. Free some space, then try again.',
        }),
    },
  },
  { name: 'changes', path: '/settings/changes?by=Ada&kind=machines' },
  {
    ...{ name: 'changes-none', path: '/settings/changes?from=yesterday' },
    uses: { changes: async () => ({ changes: [], unread: ['from'] }) },
  },
]
