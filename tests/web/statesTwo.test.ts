import { holdsStates } from './holdsStates.ts'

/** The states of the other addresses: two files, so that two cores share the work. */
holdsStates(1)
