import { holdsStates } from './holdsStates.ts'

/** The states of every second address, from the first: two files, so that two cores share the work. */
holdsStates(0)
