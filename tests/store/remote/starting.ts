import { openStore } from '../../../src/store/open.ts'

// A process of its own: opens a database and ends.
const store = await openStore(process.argv[2] ?? '')
await store.close()
process.stdout.write('open')
