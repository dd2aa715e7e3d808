import type { FirmwareTable } from '../core/firmwareTable/table.ts'
import type { Result } from '../problem.ts'
import type { OwnerReading } from '../uses/ownerReading.ts'
import type { ReadingView } from '../uses/readTable.ts'
import type { Accepted, Choices } from '../uses/readTableAccept.ts'

/** What the pages of readings ask for. A table that comes here has no serial numbers in it: it has no place for them. */
export type ReadingUses = {
  /** Holds a table against a machine and stores nothing. */
  reading(tag: string, table: FirmwareTable): Promise<Result<ReadingView>>
  /** Takes the chosen rows and keeps the reading. Fields of its problems: `basis`, `does.<row>`, `name.<row>`. */
  acceptReading(tag: string, table: FirmwareTable, choices: Choices): Promise<Result<Accepted>>
  /** A table that its owner sent and that waits. */
  ownerReading(
    tag: string,
    id: string,
  ): Promise<Result<{ readonly reading: OwnerReading; readonly table: FirmwareTable }>>
  putReadingAside(tag: string, id: string): Promise<Result<{ readonly tag: string }>>
  /** When a machine was read last. */
  lastRead(tag: string): Promise<Result<{ readonly tag: string; readonly at?: string | undefined }>>
}
