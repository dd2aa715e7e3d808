import { defineConfig } from 'drizzle-kit'

export default defineConfig({
  // 'sqlite', not 'turso': the latter writes ALTER TABLE ... ALTER COLUMN, which no plain SQLite tool reads.
  dialect: 'sqlite',
  schema: './db/schema.ts',
  out: './db/migrations',
  casing: 'snake_case',
})
