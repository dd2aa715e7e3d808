import { openStore } from '../../../src/store/open.ts'
import { sayByLink } from '../../../src/uses/rounds/yes.ts'

// A process that says yes to an offer at a given moment: URL of the database, link, instant of the shop, moment in epoch ms.
const [url = '', token = '', at = '', moment = ''] = process.argv.slice(2)
const store = await openStore(url)
process.stdout.write('ready\n')
while (Date.now() < Number(moment)) await new Promise((resolve) => setImmediate(resolve))
const said = await sayByLink(store, token, 'yes', at)
process.stdout.write(`${said.ok ? said.value.standing : 'no such link'}\n`)
await store.close()
