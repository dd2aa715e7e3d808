/** Takes a list away as a file that the import reads again. */
export const ExportLink = ({ table }: { table: string }) => (
  <a class="button quiet" href={`/export/${table}.csv`} download={`${table}.csv`}>
    Export
  </a>
)
