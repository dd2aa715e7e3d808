import { holdsStates } from './holdsStates.ts'
import { PAGE_STATES } from './states.ts'

/** Every second state, from the first: two files, so that two cores share the work. */
holdsStates(PAGE_STATES.filter((_, i) => i % 2 === 0))
