import type { Build } from '../../build.ts'
import type { Drive } from '../../part.ts'
import { type Situation, touches } from '../situation.ts'

/** Drives that were not in the machine before: of two equal ones, the second is new where one was there. */
export function newDrives({ before, after }: Situation): readonly Drive[] {
  const had = before.drives.map(({ id }) => id)
  return after.drives.filter(({ id }) => {
    const at = had.indexOf(id)
    if (at >= 0) had.splice(at, 1)
    return at < 0
  })
}

export const isM2 = ({ form }: Drive): boolean => form === 'M.2'

/** In a bay, with a cable for data and one for power. */
export const isCabled = ({ form }: Drive): boolean => form === '2.5-inch' || form === '3.5-inch'

/** A drive with cables speaks SATA unless somebody says otherwise (common practice for desktop drives). */
export const isOnSataPort = (drive: Drive): boolean => isCabled(drive) && drive.interface !== 'PCIe'

export const sataDrives = ({ drives }: Build): readonly Drive[] => drives.filter(isOnSataPort)

/** Whether the drive could be one of these: nobody gave its form. */
export const hasNoForm = ({ form }: Drive): boolean => form === undefined

/** M.2 drives come in, or all of the machine's go onto another board: then they are placed. */
export const placesM2 = (s: Situation): boolean =>
  newDrives(s).some(isM2) || (hasOtherBoard(s) && s.after.drives.some(isM2))

export const hasOtherBoard = (s: Situation): boolean => s.after.board !== undefined && touches(s, 'board')

/** A new drive takes over the system: an old one goes, or the system is copied or set up anew in the same job. */
export const takesOver = (s: Situation): boolean =>
  newDrives(s).length > 0 &&
  (newDrives({ ...s, before: s.after, after: s.before }).length > 0 ||
    s.change.work.some((work) => work === 'drive cloned' || work === 'reinstall'))
