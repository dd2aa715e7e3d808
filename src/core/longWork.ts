/** Work that takes longer than a page waits. */
export const WORK_KINDS = ['match', 'price', 'reach'] as const
export type WorkKind = (typeof WORK_KINDS)[number]

export const WORK_STATES = ['waiting', 'under way', 'done', 'called off', 'failed'] as const
export type WorkState = (typeof WORK_STATES)[number]
