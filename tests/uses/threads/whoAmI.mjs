import { parentPort, threadId } from 'node:worker_threads'

// Answers with the number of the thread it is.
parentPort?.on('message', ({ id }) => parentPort?.postMessage({ id, told: threadId }))
