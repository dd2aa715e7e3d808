import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { hasNoForm, isCabled, newDrives } from './drives.ts'

/**
 * Power plugs for drives in bays: one a drive, over all cables of the supply. M.2 drives draw from their socket. A new
 * supply brings its own cables, so the drives that stay are counted again. The shop uses no splitters.
 */
export const storagePower = rule({
  id: 'storage.power',
  source: {
    kind: 'vendor',
    text: "supply's data sheet: number of SATA power plugs; no splitters: common practice",
  },
  reads: ['sataPlugs'],
  verdicts: ['fits', 'fits after work'],
  applies: (s) =>
    newDrives(s).some(isCabled) ||
    (s.after.supply !== undefined && touches(s, 'supply') && s.after.drives.some(isCabled)),
  about: (s) => newDrives(s).find(isCabled) ?? s.after.supply,
  specs: ({ after }) => ({
    forms: after.drives.filter(hasNoForm).map((drive) => spec(drive, 'drive', 'form')),
  }),
  values: (_, { sataPlugs }, { after }) => ({ plugDrives: after.drives.filter(isCabled).length, sataPlugs }),
  verdict: ({ plugDrives, sataPlugs }) => (plugDrives <= sataPlugs ? 'fits' : 'fits after work'),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ part: 'supply' }] : []),
  cautions: (_, verdict) => (verdict === 'fits after work' ? ['psu-closed', 'psu-cables'] : ['psu-cables']),
})
