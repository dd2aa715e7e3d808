import { afterEach } from 'vitest'
import { cleanUp } from '../tests/store/temporaryStore.ts'

/** Read anew for each file, which a module of many files in one process is not; so it stands here and not beside what it ends. */
afterEach(cleanUp)
