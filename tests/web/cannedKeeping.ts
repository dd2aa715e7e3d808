import { ok } from '../../src/problem.ts'
import type { BackupsView, BackupUses } from '../../src/uses/backups.ts'
import type { ChangeUses } from '../../src/uses/changes.ts'
import { NOW } from './cannedShop.ts'

const FOLDER = '/media/other-disk/stillfits'
const night = '2026-06-12T08:00:00.000Z'
const good = {
  ...{ id: 3, at: night, path: `${FOLDER}/stillfits-20260612T080000Z.db`, bytes: 48_300_000, rows: 203_411 },
  ...{ schemaVersion: 27, checkedAt: night, isThere: true },
}

export const cannedBackups: BackupsView = {
  lines: [
    good,
    { id: 2, at: '2026-06-11T08:00:00.000Z', failure: 'no room', isThere: false },
    {
      ...{ ...good, id: 1, at: '2026-05-29T08:00:00.000Z', path: `${FOLDER}/stillfits-20260529T080000Z.db` },
      ...{ isThere: false, removedAt: night },
    },
  ],
  plan: { hour: 3, keep: 14, warnDays: 3 },
  ...{ folder: FOLDER, isOnServer: false, sameDisk: false, lastGoodAt: night, isOld: false },
  ...{ timeZone: 'America/Chicago', nextAt: '2026-06-13T08:00:00.000Z' },
}

/** A shop with a good copy of last night, one that failed and one that rotation took; some changes. */
export const cannedKeeping: BackupUses & ChangeUses = {
  backups: async () => cannedBackups,
  backUpNow: async () => ok(good),
  changes: async () => ({
    changes: [
      {
        id: 9,
        at: NOW,
        by: 'Ada',
        kind: 'machines',
        record: 'T-0007',
        what: 'changed',
        fields: 'sold_at,note',
        rows: 1,
      },
      { id: 8, at: NOW, by: 'key price list', kind: 'shelf_items', record: 'S-1', what: 'removed', rows: 1 },
      {
        id: 7,
        at: NOW,
        by: 'whoever has a link',
        kind: 'owner_readings',
        record: '4',
        what: 'added',
        rows: 1,
      },
      { id: 6, at: NOW, by: 'Ada', kind: 'runs', what: 'added', rows: 2000 },
      { id: 5, at: NOW, kind: 'customers', record: 'C-1', what: 'changed', fields: 'phone', rows: 1 },
    ],
    unread: [],
    olderThan: 5,
  }),
  changesTable: async () => 'at,by\r\n',
}
