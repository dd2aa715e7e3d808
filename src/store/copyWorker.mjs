// Entry of the thread that copies the database. Plain JavaScript, like bin.mjs: a new thread reads no TypeScript yet.
import { register } from 'tsx/esm/api'

register()
await import('./copyWorker.ts')
