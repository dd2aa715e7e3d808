import { mkdir, open, rename, rm, stat } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import type { Outcome } from '../../core/outbox/outcome.ts'
import type { Parcel, Transport } from './transport.ts'

/** Mails hold people's names and machines. */
const OWNER_ALONE = { folder: 0o700, file: 0o600 }

/** The file of a mail in the folder: its Message-ID, so that the same mail is the same file. */
export const fileNameOf = (messageId: string): string =>
  `${messageId.replaceAll(/[^A-Za-z0-9@.-]/g, '').replaceAll(/\.{2,}/g, '.')}.eml`

/**
 * Mails as files in a folder, each whole or not there: nothing leaves this computer. Written beside and renamed, so a stop
 * in between leaves no half mail, and writing one again replaces it by itself.
 */
export function filesTransport(folder: string): Transport {
  return {
    isRepeatable: true,
    connections: 1,
    send: (parcel) => write(folder, parcel),
    close: async () => {},
  }
}

async function write(folder: string, { messageId, bytes, mayHandOver }: Parcel): Promise<Outcome> {
  const path = join(folder, fileNameOf(messageId))
  const unfinished = `${path}.part`
  try {
    await makeFolder(resolve(folder))
    const file = await open(unfinished, 'w', OWNER_ALONE.file)
    try {
      await file.writeFile(bytes)
      await file.sync()
    } finally {
      await file.close()
    }
    if (!(await mayHandOver())) {
      await rm(unfinished, { force: true })
      return { is: 'not ours' }
    }
    await rename(unfinished, path)
    return { is: 'sent', says: fileNameOf(messageId) }
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown'
    return { is: 'server', says: `the file could not be written (${code})` }
  }
}

const isFolder = async (path: string): Promise<boolean> =>
  stat(path).then(
    (there) => there.isDirectory(),
    () => false,
  )

/** A folder and those above it. Node's own way of it never ends where none can be made (below /proc, 20.19). */
async function makeFolder(folder: string): Promise<void> {
  if (await isFolder(folder)) return
  if (dirname(folder) !== folder) await makeFolder(dirname(folder))
  await mkdir(folder, { mode: OWNER_ALONE.folder })
}
