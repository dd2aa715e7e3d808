/** Takes a list away as a file; all but records are read again by the import. */
export const ExportLink = ({ table, says = 'Export' }: { table: string; says?: string }) => (
  <a class="button quiet" href={`/export/${table}.csv`} download={`${table}.csv`}>
    {says}
  </a>
)
