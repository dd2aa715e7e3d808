/** What is done for a sale, in the order in which hands do it. Handing over ends it. */
export const SALE_STEPS = [
  'parts',
  'reading',
  'tape',
  'runs',
  'sheet',
  'message',
  'label',
  'handing over',
] as const
export type SaleStep = (typeof SALE_STEPS)[number]

/** Steps that a sale can do without: what they would tell stays unknown, and the sheet says so. */
export const LEAVABLE = ['parts', 'reading', 'tape', 'runs', 'sheet', 'message', 'label'] as const
export type LeavableStep = (typeof LEAVABLE)[number]

export const isLeavable = (step: string): step is LeavableStep =>
  (LEAVABLE as readonly string[]).includes(step)

/** What is kept of a machine on its way out, wherever it came from: nothing here is a session's. */
export type SaleFacts = {
  readonly parts: number
  /** Its own table was read at least once. */
  readonly wasRead: boolean
  /** Places for the tape that nobody knows (see tapeMeasure). */
  readonly notMeasured: number
  /** Runs with the parts that are in it now. */
  readonly runs: number
  /** Somebody looked at the limits sheet and called it right. */
  readonly sheetSeen: boolean
  readonly drafted: boolean
  /** A label has a code that leads somewhere. */
  readonly labelled: boolean
  readonly handedOver: boolean
  readonly leftOut: readonly LeavableStep[]
}

export const STEP_STATES = ['done', 'left out', 'open'] as const
export type StepState = (typeof STEP_STATES)[number]
export type StepStanding = { readonly step: SaleStep; readonly state: StepState }

const isDone: { readonly [S in SaleStep]: (facts: SaleFacts) => boolean } = {
  parts: ({ parts }) => parts > 0,
  reading: ({ wasRead }) => wasRead,
  tape: ({ notMeasured }) => notMeasured === 0,
  runs: ({ runs }) => runs > 0,
  sheet: ({ sheetSeen }) => sheetSeen,
  message: ({ drafted }) => drafted,
  label: ({ labelled }) => labelled,
  'handing over': ({ handedOver }) => handedOver,
}

/** How every step stands. What was done counts as done, whether it was left out before or not. */
export const standingOf = (facts: SaleFacts): readonly StepStanding[] =>
  SALE_STEPS.map((step) => {
    if (isDone[step](facts)) return { step, state: 'done' }
    return { step, state: isLeavable(step) && facts.leftOut.includes(step) ? 'left out' : 'open' }
  })

/** What is to be done next: the first open step; undefined once the machine is handed over. */
export const nextStep = (facts: SaleFacts): SaleStep | undefined =>
  facts.handedOver ? undefined : standingOf(facts).find(({ state }) => state === 'open')?.step
