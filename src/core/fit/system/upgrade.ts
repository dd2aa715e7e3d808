import type { Situation } from '../situation.ts'

/** True when the change brings the system to its next version. */
export const isUpgrade = ({ change }: Situation): boolean => change.work.includes('system upgrade')
