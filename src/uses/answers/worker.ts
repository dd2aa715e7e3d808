import { parentPort } from 'node:worker_threads'
import { computeAnswer } from '../../core/computeAnswer.ts'
import type { Letter, Reply } from '../threads/askThread.ts'
import type { Asked, Told } from './messages.ts'

const port = parentPort
if (port === null) throw new Error('started as a thread of its own only')
port.on('message', ({ id, asked }: Letter<Asked>) => {
  port.postMessage(replyTo(id, asked))
})

function replyTo(id: number, { inputs, at }: Asked): Reply<Told['answer']> {
  try {
    return { id, told: computeAnswer(inputs, at) }
  } catch (error) {
    return { id, error: error instanceof Error ? error : new Error('a thrown value') }
  }
}
