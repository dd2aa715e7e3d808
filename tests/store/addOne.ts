import { workPrices } from '../../db/schema.ts'
import { problemOf } from '../../src/store/errors.ts'
import { openStore } from '../../src/store/open.ts'

// A process of its own: adds one so many times, and prints how often it was told that it was kept.
const [file = '', times = '0'] = process.argv.slice(2)
const store = await openStore(/^\w+:/.test(file) ? file : `file:${file}`)
let told = 0
for (let i = 0; i < Number(times); i++)
  try {
    await store.write(async (tx) => {
      const [row] = await tx.select().from(workPrices)
      await tx.update(workPrices).set({ priceMinor: (row?.priceMinor ?? 0) + 1 })
    })
    told++
  } catch (error) {
    if (problemOf(error)?.code !== 'busy') throw error
  }
await store.close()
process.stdout.write(String(told))
