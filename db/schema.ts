/**
 * All tables. Column names are the snake_case of the keys. Instants (`...At`) are ISO 8601 UTC text, so that they
 * sort as they happened; money (`...Minor`) is a whole number of minor units of the shop's one currency.
 * A null is "not known" or "not given", never zero. JSON columns are checked where they are written and read.
 */
export * from './schema/access.ts'
export * from './schema/jobs.ts'
export * from './schema/keeping.ts'
export * from './schema/longWork.ts'
export * from './schema/machines.ts'
export * from './schema/outbox.ts'
export * from './schema/questions.ts'
export * from './schema/rounds.ts'
export * from './schema/runs.ts'
export * from './schema/shelf.ts'
export * from './schema/shop.ts'
