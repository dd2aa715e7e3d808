// Entry of the thread that does long work. Plain JavaScript, like bin.mjs: a new thread reads no TypeScript yet.
import { register } from 'tsx/esm/api'
import '../threads/littleGarbage.mjs'

register()
await import('./worker.ts')
