/** The page of one part. */
export const PART_EN = {
  allMachines: 'All {n} are in the list of machines',
}
