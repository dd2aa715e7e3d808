// A fitting thread without numerics: it answers with what it was asked so far, so that tests can tell. Titles named
// for it make it fail: `breaks` throws, `dies` ends the thread, `slow` keeps it busy, `hangs` never answers.
import { parentPort } from 'node:worker_threads'

const shops = new Map()
const gathered = new Map()
let fits = 0
let adds = 0

const busy = (ms) => {
  const end = performance.now() + ms
  while (performance.now() < end);
}

parentPort.on('message', ({ id, asked }) => {
  const titles = asked.what === 'fit' ? asked.data.titles.map((t) => t.id) : []
  const wanted = asked.what === 'excerpt' ? asked.of.wanted.map((w) => w.titleId) : []
  const names = [...titles, ...wanted]
  if (names.includes('dies')) process.exit(3)
  if (names.includes('hangs')) return
  if (names.includes('breaks')) return parentPort.postMessage({ id, error: new Error('on purpose') })
  if (names.includes('slow')) busy(600)
  if (asked.what === 'runs') {
    const ids = asked.isFirst ? [] : (gathered.get(asked.shop) ?? [])
    gathered.set(asked.shop, [...ids, ...asked.runs.map((r) => r.id)])
    return parentPort.postMessage({ id, told: { runs: gathered.get(asked.shop).length } })
  }
  if (asked.what === 'fit') {
    const runs = gathered.get(asked.shop) ?? []
    gathered.delete(asked.shop)
    if (runs.length !== asked.runs) return parentPort.postMessage({ id, error: new Error('runs were lost') })
    fits++
    shops.set(asked.shop, { runs, start: asked.start, at: asked.data.at })
    return parentPort.postMessage({ id, told: { start: { name: 'stand-in', fit: fits }, runs: runs.length } })
  }
  const shop = shops.get(asked.shop)
  if (shop === undefined) return parentPort.postMessage({ id, error: new Error('nothing was fitted yet') })
  if (asked.what === 'add') {
    adds++
    shop.runs.push(...asked.runs.map((r) => r.id))
    return parentPort.postMessage({ id, told: { runs: shop.runs.length } })
  }
  if (asked.what === 'excerpt')
    return parentPort.postMessage({ id, told: { model: 'stand-in', fits, adds, ...shop } })
  parentPort.postMessage({ id, told: asked.asks.map(() => undefined) })
})
