import { COPY_FAILURES_EN } from './en/backups.ts'

/** Why no copy was made, and what to do. */
export const sayCopyFailure = (failure: keyof typeof COPY_FAILURES_EN): string => COPY_FAILURES_EN[failure]
