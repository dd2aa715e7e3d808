import { expect, test } from 'vitest'
import { recordsLike } from '../../../src/core/asked/inMind.ts'
import type { Part } from '../../../src/core/part.ts'

// Names of our own; how people mistype is common practice of chats: a letter dropped, doubled or swapped.
const CARDS: readonly Part[] = [
  'Hobbin Spokeshave 8G',
  'Hobbin Bradawl 6G',
  'Marlstone Mattock 12G',
  'Marlstone Froe 4G',
].map((name) => ({ kind: 'card', id: name.replace(/ \d+G$/, ''), name }))
const like = (words: string) => recordsLike({ kind: 'card', words }, CARDS).map(({ id }) => id)

test.each([
  ['spokeshv 8gb', ['Hobbin Spokeshave']],
  ['SPOKSHAVE 8G', ['Hobbin Spokeshave']],
  ['spokehsave 8 gb?', []],
  ['hobin bradwal', ['Hobbin Bradawl']],
  ['a marlstone matock, used', ['Marlstone Mattock']],
  ['hobbin bradawl 6gb', ['Hobbin Bradawl']],
  // A short name stands as it is: one slip of four letters could be anything.
  ['frow 4g', []],
  ['froe 4g', ['Marlstone Froe']],
  ['some 8gb card', []],
  ['mattress 12g', []],
  ['', []],
])('%s', (words, ids) => expect(like(words)).toEqual(ids))
