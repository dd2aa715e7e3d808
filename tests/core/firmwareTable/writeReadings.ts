import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { DEMO_READINGS, DEMO_READINGS_FOLDER } from './demoReadings.ts'

/** Writes the demo's readings again: `npm run readings`. */
mkdirSync(DEMO_READINGS_FOLDER, { recursive: true })
for (const [name, text] of Object.entries(DEMO_READINGS))
  writeFileSync(join(DEMO_READINGS_FOLDER, name), text)
