// Entry of the thread that fits the gain model. Plain JavaScript, like bin.mjs: a new thread reads no TypeScript yet.
import { register } from 'tsx/esm/api'
import '../threads/littleGarbage.mjs'

register()
await import('./worker.ts')
