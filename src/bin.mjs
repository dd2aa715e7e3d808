#!/usr/bin/env node
// Entry of every start: checks the Node range before any TypeScript is read, then hands over to the command.
// Plain JavaScript on purpose: an old Node must get this far to say what is wrong.
import { fileURLToPath } from 'node:url'

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  process.stderr.write(
    `Stillfits needs Node.js 20.19 or newer; this is ${process.versions.node}. Install a newer Node.js and start again.\n`,
  )
  process.exit(2)
}
// Started from another folder, tsx would not find our JSX settings.
process.env.TSX_TSCONFIG_PATH ??= fileURLToPath(new URL('../tsconfig.json', import.meta.url))
const { register } = await import('tsx/esm/api')
register()
const { main } = await import('./main.ts')
process.exitCode = await main(process.argv.slice(2))
