import { readdir, readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'

/** The tables of one folder under fixtures/, as a person would pick them in a file dialog. */
export async function tablesOf(folder: string): Promise<{ name: string; bytes: Uint8Array }[]> {
  const at = new URL(`../../fixtures/${folder}/`, import.meta.url)
  const names = (await readdir(fileURLToPath(at))).filter((name) => name.endsWith('.csv')).sort()
  return Promise.all(names.map(async (name) => ({ name, bytes: await readFile(new URL(name, at)) })))
}
