/** Heads of a table of platforms. */
export const Heads = ({ first, rest }: { first: string; rest: readonly string[] }) => (
  <thead>
    <tr>
      <th scope="col">{first}</th>
      {rest.map((head) => (
        <th scope="col">{head}</th>
      ))}
    </tr>
  </thead>
)
