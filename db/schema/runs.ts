import { isNull, sql } from 'drizzle-orm'
import {
  type AnySQLiteColumn,
  blob,
  check,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
} from 'drizzle-orm/sqlite-core'
import { machines } from './machines.ts'
import { parts } from './shelf.ts'

// Titles, measurements, and what the gain model keeps of its fit.

export const titles = sqliteTable('titles', {
  id: text().primaryKey(),
  name: text().notNull(),
  /** What it wants at 1920 x 1080, high; null = unknown. */
  memoryGB: real(),
  graphicsMemoryGB: real(),
  /** Its engine goes no faster. */
  capFps: real(),
})

/** Versions of titles, each with when it came out or was first seen here. */
export const titleVersions = sqliteTable(
  'title_versions',
  {
    titleId: text()
      .notNull()
      .references(() => titles.id),
    version: text().notNull(),
    at: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.titleId, t.version] })],
)

export const settings = sqliteTable('settings', {
  id: text().primaryKey(),
  widthPx: integer().notNull(),
  heightPx: integer().notNull(),
  preset: text().notNull(),
  rayTracing: integer({ mode: 'boolean' }).notNull(),
  /** Mode name; null = off. */
  upscaler: text(),
  frameGeneration: integer({ mode: 'boolean' }).notNull(),
  capFps: real(),
  /** The setting that this one is a step below of, and what is lower; both or neither. */
  loweredFromId: text().references((): AnySQLiteColumn => settings.id),
  loweredWhat: text(),
})

/** The shop's own measurements, with what was fitted then: machines change, runs do not. */
export const runs = sqliteTable(
  'runs',
  {
    id: text().primaryKey(),
    at: text().notNull(),
    /** Null: measured on a test bench. */
    machineTag: text().references(() => machines.tag),
    processorId: text()
      .notNull()
      .references(() => parts.id),
    cardId: text()
      .notNull()
      .references(() => parts.id),
    /** Memory and link as they ran, not as their labels say. */
    memoryType: text().notNull(),
    memoryRateMts: real().notNull(),
    memoryChannels: integer().notNull(),
    memoryTotalGB: real().notNull(),
    linkGen: real().notNull(),
    linkLanes: integer().notNull(),
    titleId: text()
      .notNull()
      .references(() => titles.id),
    titleVersion: text().notNull(),
    settingId: text()
      .notNull()
      .references(() => settings.id),
    averageFps: real().notNull(),
    low1Fps: real(),
    note: text(),
    /** Null: nobody looked. */
    largeBar: integer({ mode: 'boolean' }),
    /** Null: as the parts came. */
    processorLimitW: real(),
    cardLimitW: real(),
    /** The other definition of the 1 % low, and both of the 0.1 % low: core/gain/run. */
    low1MeanFps: real(),
    low01Fps: real(),
    low01MeanFps: real(),
    driverVersion: text(),
    scene: text(),
    roomC: real(),
    processorLoadC: real(),
    cardLoadC: real(),
    noiseDba: real(),
    /** The kept frame-time log it was computed from. */
    logId: text(),
    /** Somebody took it out; it can be brought back, and no reader but that one sees it. */
    takenOutAt: text(),
  },
  (t) => [
    index('runs_by_title').on(t.titleId, t.titleVersion, t.at),
    index('runs_by_machine').on(t.machineTag, t.at),
    index('runs_by_processor').on(t.processorId, t.at),
    index('runs_by_card').on(t.cardId, t.at),
    index('runs_by_date').on(t.at, t.id),
    // What was measured of which pair, read from the index alone.
    index('runs_by_pair').on(t.processorId, t.cardId, t.titleId, t.at).where(isNull(t.takenOutAt)),
  ],
)

/**
 * Odd runs that somebody looked at and found to be so. It holds while what was looked at stays what it is: the run's own
 * figures, what other runs of the same parts there are, and about what the rest lets expect.
 */
export const runLooks = sqliteTable('run_looks', {
  runId: text()
    .primaryKey()
    .references(() => runs.id),
  at: text().notNull(),
  /** Name of the account or key; null: the demo's visitor. */
  by: text(),
  /** What the run said then, and its repeats: a look at other figures is none. */
  evidence: text().notNull(),
  expectedFps: real().notNull(),
})

/**
 * How often what the gain model is fitted to has changed: one row, counted by triggers, so that whoever writes is counted.
 * A run more is told apart from any other change, because the model takes it in without being fitted anew.
 */
export const gainRevisions = sqliteTable(
  'gain_revisions',
  {
    id: integer().primaryKey(),
    runsAdded: integer().notNull(),
    /** Runs changed or taken out; titles, settings, figures of processors and cards, the shop's window. */
    changed: integer().notNull(),
  },
  (t) => [check('gain_revisions_one_row', sql`${t.id} = 1`)],
)

/** Where the next fit of the gain model starts from: one row. Losing it costs time and no figure. */
export const gainStarts = sqliteTable(
  'gain_starts',
  {
    id: integer().primaryKey(),
    start: text({ mode: 'json' }).$type<unknown>().notNull(),
    runs: integer().notNull(),
    /** How long that fit took, for whoever waits for the next one. */
    tookMs: integer().notNull(),
    at: text().notNull(),
  },
  (t) => [check('gain_starts_one_row', sql`${t.id} = 1`)],
)

/**
 * By what intervals of gains are multiplied since kept and missed promises called for it. The latest row that was not
 * taken back holds; none: 1. Triggers count each change among those that the gain model hangs on.
 */
export const widthSteps = sqliteTable('width_steps', {
  id: integer().primaryKey({ autoIncrement: true }),
  at: text().notNull(),
  /** Name of the account. */
  by: text(),
  was: real().notNull(),
  factor: real().notNull(),
  /** JSON: counts and coverage that spoke for it. */
  evidence: text({ mode: 'json' }).$type<unknown>().notNull(),
  takenBackAt: text(),
})

/** Frame-time logs as they were uploaded. */
export const frameLogs = sqliteTable(
  'frame_logs',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    /** The file's own name. */
    name: text().notNull(),
    addedAt: text().notNull(),
    /** Length and SHA-256 of the file, and bytes kept. Null while it is coming in: then nothing shows it. */
    size: integer(),
    sha256: text(),
    keptBytes: integer(),
    /** JSON: how it was read when a run was last saved from it. */
    choice: text({ mode: 'json' }).$type<unknown>(),
  },
  (t) => [index('frame_logs_by_sha256').on(t.sha256)],
)

/** The file through gzip, cut into pieces of at most 1,000,000 bytes: one behind the other they are one gzip file. */
export const frameLogPieces = sqliteTable(
  'frame_log_pieces',
  {
    logId: integer()
      .notNull()
      .references(() => frameLogs.id),
    position: integer().notNull(),
    bytes: blob({ mode: 'buffer' }).notNull(),
  },
  (t) => [primaryKey({ columns: [t.logId, t.position] })],
)
