import type { Usage } from './codes.ts'

/**
 * What a machine's own firmware table (SMBIOS, DMTF DSP0134) says of board, processor, memory and slots, as it says it.
 * It has no place for serial numbers, asset tags, the machine's UUID and its maker's free texts, so none is ever kept.
 * A field that is absent was not told. Firmware makers fill it in by hand: see `propose` for how far each is believed.
 */
export type FirmwareTable = {
  /** Version of the standard, such as `3.2`; a bare table does not name it. */
  readonly version?: string | undefined
  readonly firmware: {
    readonly maker?: string | undefined
    readonly version?: string | undefined
    /** `2019-12-03` where it is a date, else as written. */
    readonly date?: string | undefined
  }
  readonly system: { readonly maker?: string | undefined; readonly product?: string | undefined }
  readonly board: {
    readonly maker?: string | undefined
    readonly product?: string | undefined
    readonly version?: string | undefined
  }
  readonly housing?: string | undefined
  readonly trustModule?: '2.0' | '1.2' | undefined
  readonly processors: readonly TableProcessor[]
  /** Places for the system's memory; a PC has one array. */
  readonly arrays: readonly TableArray[]
  readonly modules: readonly TableModule[]
  readonly slots: readonly TableSlot[]
  /** How many fields name a text that is not there; they count as not told. */
  readonly missingTexts: number
}

export type TableProcessor = {
  readonly place?: string | undefined
  readonly maker?: string | undefined
  readonly name?: string | undefined
  readonly fitted: boolean
  readonly socket?: string | undefined
  readonly cores?: number | undefined
  readonly threads?: number | undefined
}

export type TableArray = { readonly maxMiB?: number | undefined; readonly places?: number | undefined }

export type TableModule = {
  readonly place?: string | undefined
  /** On some boards only this tells two places apart. */
  readonly bank?: string | undefined
  /** `not told`: something is there and its size is not. */
  readonly holds: 'module' | 'nothing' | 'not told'
  readonly sizeMiB?: number | undefined
  readonly type?: string | undefined
  readonly shape?: string | undefined
  /** What the module is made for, and what it runs at, as written: on old boards this may be the clock, half of it. */
  readonly ratedMts?: number | undefined
  readonly runsMts?: number | undefined
  readonly maker?: string | undefined
  readonly partNumber?: string | undefined
  readonly ranks?: number | undefined
}

export type TableSlot = {
  readonly name?: string | undefined
  readonly type?: string | undefined
  readonly pcieGen?: number | undefined
  readonly lengthLanes?: number | undefined
  readonly lanes?: number | undefined
  readonly usage?: Usage | undefined
}

/** More of a kind than any PC has; a table with more is refused, so that what is kept stays small. */
export const MOST_OF_A_KIND = 128
