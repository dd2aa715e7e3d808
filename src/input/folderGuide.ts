import { TABLES } from './shopFolder.ts'

/** One column of a table as documentation tells it. `allowed` says in words what a cell takes. */
export type ColumnGuide = { readonly name: string; readonly required: boolean; readonly allowed: string }
export type TableGuide = { readonly file: string; readonly columns: readonly ColumnGuide[] }

/** What a shop folder may hold: every file with its columns, from the tables that the import reads. */
export const folderGuide = (): TableGuide[] =>
  TABLES.map(({ name, columns }) => ({
    file: `${name}.csv`,
    columns: Object.entries(columns).map(([column, { required, cell }]) => ({
      name: column,
      required,
      allowed: cell.allowed,
    })),
  }))

/** The same as a Markdown table, one row a file; a star marks columns that must be there and filled. */
export function folderTable(): string {
  const rows = folderGuide().map(({ file, columns }) => {
    const names = columns.map(({ name, required }) => `${name}${required ? '*' : ''}`)
    return `| \`${file}\` | ${names.join(', ')} |`
  })
  return ['| file | columns |', '| --- | --- |', ...rows].join('\n')
}
