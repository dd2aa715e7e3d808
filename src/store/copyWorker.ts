import { parentPort, workerData } from 'node:worker_threads'
import { copyDatabase } from './databaseCopy.ts'

// Copying and looking through hold whoever does them until they are done, so pages are served by another thread.
const port = parentPort
if (port === null) throw new Error('started as a thread of its own only')
const { from, to } = workerData as { readonly from: string; readonly to: string }
try {
  port.postMessage({ looked: await copyDatabase(from, to) })
} catch (error) {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'UNKNOWN'
  port.postMessage({ code })
}
