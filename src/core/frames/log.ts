/** The largest frame-time log that is taken: some ten million rows of a few columns. */
export const LOG_MAX_BYTES = 512 * 1024 * 1024

/** More captures of one thing than anybody makes. */
export const LOGS_AT_ONCE = 12
