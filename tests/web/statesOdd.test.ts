import { holdsStates } from './holdsStates.ts'
import { PAGE_STATES } from './states.ts'

/** The other states: two files, so that two cores share the work. */
holdsStates(PAGE_STATES.filter((_, i) => i % 2 === 1))
