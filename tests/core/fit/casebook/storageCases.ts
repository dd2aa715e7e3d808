import type { FitCase } from './case.ts'
import { storageLink } from './storageLink.ts'
import { storagePortsOff } from './storagePortsOff.ts'
import { storageSata } from './storageSata.ts'
import { storageSizes } from './storageSizes.ts'
import { storageSockets } from './storageSockets.ts'
import { storageStays } from './storageStays.ts'

/** Drives: M.2 sockets, sizes, links and shared lanes, SATA ports, plugs and bays, and drives that stay. */
export const storageCases: readonly FitCase[] = [
  ...storageSockets,
  ...storageSizes,
  ...storageLink,
  ...storageSata,
  ...storagePortsOff,
  ...storageStays,
]
