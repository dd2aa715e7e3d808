import { type FileHandle, open } from 'node:fs/promises'
import { proposeLoose } from '../core/firmwareTable/propose.ts'
import { READING_BYTES, readFirmware } from '../input/firmwareBytes.ts'
import { EXIT, failed, ok, type Result } from '../problem.ts'
import { READING } from '../words/en/firmwareTable.ts'
import { figuresFor } from '../words/figures.ts'
import { sayLimitRow, sayPartRow, sayTable, sayTableNote } from '../words/firmwareTable.ts'
import type { Command, Terminal } from './command.ts'
import { printJson, report } from './command.ts'

export const readCommand: Command = {
  name: 'read',
  operands: 'FILE',
  says: "Reads a machine's own firmware table (SMBIOS): a file, or hex or base64 text. Needs no database.",
  options: [],
  count: [1, 1],
  run: async ([file = ''], flags, terminal) => {
    const given = await givenBy(file, terminal)
    const read = given.ok ? readFirmware(given.value, 'FILE') : given
    if (!read.ok) return report(read.problems, flags, terminal)
    const table = read.value
    const proposal = proposeLoose(table, [])
    if (flags.json) {
      const parts = proposal.parts.map(({ kind, read: part }) => ({
        kind,
        name: part?.name,
        ...part?.figures,
      }))
      const limits = proposal.limits.map(({ key, value, counted, remarks }) => ({
        ...{ key, value, counted, remarks: remarks.map(({ what }) => what) },
      }))
      printJson({ table, parts, limits, notes: proposal.notes }, terminal)
      return EXIT.done
    }
    const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
    const line = (label: string, text: string) => terminal.out(`${`${label}:`.padEnd(20)} ${text}\n`)
    for (const { label, text } of sayTable(table, figures)) line(label, text)
    terminal.out('\nWhat follows from it\n')
    for (const row of proposal.parts) line(row.kind, sayPartRow(row, figures).read)
    for (const row of proposal.limits) {
      const { label, read: value, lines: said } = sayLimitRow(row, figures)
      const lines = row.counted ? said : [...said, READING.hint]
      line(label, lines.length === 0 ? value : `${value} (${lines.join(' ')})`)
    }
    for (const note of proposal.notes) terminal.out(`${sayTableNote(note, figures)}\n`)
    return EXIT.done
  },
}

const notFound = (got: string) =>
  failed({
    ...{ code: 'not found', field: 'FILE', got },
    next: 'cannot be read. Give the path of a file, or - for hex or base64 text on standard input.',
  })

/** At most one byte more than is looked at, so that a huge file costs nothing. */
async function givenBy(file: string, terminal: Terminal): Promise<Result<Uint8Array | string>> {
  if (file === '-') return ok(await terminal.readStdin(READING_BYTES))
  let handle: FileHandle | undefined
  try {
    handle = await open(file)
    const bytes = Buffer.alloc(READING_BYTES + 1)
    let length = 0
    while (length < bytes.length) {
      const { bytesRead } = await handle.read(bytes, length, bytes.length - length)
      if (bytesRead === 0) break
      length += bytesRead
    }
    return ok(new Uint8Array(bytes.subarray(0, length)))
  } catch {
    return notFound(file)
  } finally {
    await handle?.close()
  }
}
