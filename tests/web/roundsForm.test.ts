import { expect, test } from 'vitest'
import { shelf } from './cannedShop.ts'
import { answerTo } from './serve.ts'

const piecesAt = async (path: string): Promise<string | undefined> =>
  /name="pieces"[^>]*value="(\d*)"/.exec(await (await answerTo({ name: 'rounds', path })).text())?.[1]

test('a round about an item begins with all its free pieces, and with one where none is named', async () => {
  const several = shelf.find(({ quantity }) => quantity > 1)
  if (several === undefined) throw new Error('the canned shop has nothing twice')
  expect(await piecesAt(`/rounds?of=${several.id}`)).toBe(String(several.quantity))
  expect(await piecesAt('/rounds')).toBe('1')
  expect(await piecesAt('/rounds?of=S-999')).toBe('1')
})
